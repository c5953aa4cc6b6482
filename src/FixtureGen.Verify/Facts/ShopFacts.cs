using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Shape;

namespace FixtureGen.Verify.Facts;

/// <summary>
/// Whether what is cut fits the shop: plate, fasteners, magnets, cord, blank and the drawing itself, none of them taken from the
/// design. A design that is wrong is caught here, since the other checks compare the program with it.
/// </summary>
internal static class ShopFacts
{
    /// <summary>Asks once for all that is cut before and in the run: earlier setups without a program are taken as the design says.</summary>
    /// <param name="first">True for the judgement's first run: what concerns the whole design is asked then.</param>
    /// <param name="setups">Those whose cuts have not been asked about.</param>
    public static void Check(Run run, Part drawing, bool first, ImmutableArray<Setup> setups)
    {
        FactRun facts = new(run, new PlacedDrawing(drawing, run.Design.Placement.Pose));
        if (first)
        {
            SeatFacts.Check(facts);
            DrawingFacts.Check(facts);
            LabelFacts.Check(facts);
        }
        if (setups.Contains(Setup.Top))
        {
            HoleFacts.Check(facts);
            MagnetFacts.Check(facts);
            CordFacts.Check(facts);
            FormFacts.Check(facts);
            PortFacts.Check(facts);
            NetFacts.Check(facts);
            ReliefFacts.Check(facts);
            WallFacts.Check(facts);
        }
        if (run.Setup == Setup.Trim)
        {
            TrimFacts.Check(facts);
            EdgeFit.Check(facts);
        }
        else
        {
            BoreFit.Check(facts);
        }
    }
}

/// <summary>A run with the drawing in its place, and where its findings go.</summary>
internal sealed record FactRun(Run Run, PlacedDrawing Drawing)
{
    public Job Job => Run.Job;

    public FixtureDesign Design => Run.Design;

    /// <summary>The face that the shell rests on, by the job.</summary>
    public double Face => Run.Job.Rules.FixtureHeight;

    public IEnumerable<Removal> Cuts(FeatureKind kind) => Design.Removals.Where(r => r.Kind == kind);

    /// <summary>The program line that cuts nearest to a place of the plate frame, where the run cuts that setup; else 0.</summary>
    public int Line(Point2 at, Setup setup)
    {
        Point2 here = setup == Setup.Underside && Design.Flip is { } flip ? flip.Apply(at) : at;
        return setup == Run.Setup ? Run.Index.Nearest(here)?.Line ?? 0 : 0;
    }

    public static ImmutableArray<Piece> Boundary(Removal cut) =>
        Spread.PiecesOf(cut.Area.SelectMany(r => r.Contours).SelectMany(c => c.Segments));
}

using FixtureGen.Model;

namespace FixtureGen.Verify.Facts;

/// <summary>Blank, thickness, height and turn-over by the job, the blank's file and the plate's edge stops.</summary>
internal static class SeatFacts
{
    private const double Same = 1e-6;

    public static void Check(FactRun facts)
    {
        (Job job, FixtureDesign design) = (facts.Job, facts.Design);
        Compare(facts, "the fixture height", design.FixtureHeight, facts.Face);
        Compare(facts, "the raw thickness", design.RawThickness, job.BlankThickness);
        if (design.Placement.Blank != job.Blank)
        {
            FactFindings.Named(facts, "the blank", design.Placement.Blank.Name, job.Blank.Name);
        }
        Box2 box = design.Placement.BlankBox;
        if (Edge(job.Plate, n => n.X, p => p.X, job.Blank.Width) is { } x)
        {
            Compare(facts, "the blank's left edge", box.MinX, x);
            Compare(facts, "the blank's right edge", box.MaxX, x + job.Blank.Width);
        }
        if (Edge(job.Plate, n => n.Y, p => p.Y, job.Blank.Height) is { } y)
        {
            Compare(facts, "the blank's front edge", box.MinY, y);
            Compare(facts, "the blank's rear edge", box.MaxY, y + job.Blank.Height);
        }
        bool below = design.Removals.Any(r => r.Setup == Setup.Underside);
        if (below || design.Flip is not null)
        {
            Compare(facts, "the line that the block is turned over about", design.Flip?.AxisX ?? 0, box.Middle.X);
        }
        if (job.Placement is { } pose)
        {
            Compare(facts, "the part's shift in X", design.Placement.Pose.X, pose.X);
            Compare(facts, "the part's shift in Y", design.Placement.Pose.Y, pose.Y);
            Compare(facts, "the part's turn", design.Placement.Pose.AngleDeg, pose.AngleDeg);
        }
        Skim(facts, box);
    }

    /// <summary>One skim, from the raw top to the fixture height, over the block wherever its stops let it lie.</summary>
    private static void Skim(FactRun facts, Box2 box)
    {
        Removal[] skims = [.. facts.Cuts(FeatureKind.Skim)];
        if (skims.Length == 0)
        {
            FactFindings.Missing(facts, "the skim of the face", box.Middle, Setup.Top);
            return;
        }
        foreach (Removal more in skims.Skip(1))
        {
            FactFindings.Unasked(facts, more.Feature, box.Middle, Setup.Top);
        }
        double plug = facts.Cuts(FeatureKind.Plug).Select(p => p.TopZ).DefaultIfEmpty(facts.Face).Max();
        Compare(facts, "the skimmed face", skims[0].FloorZ, plug);
        Removal[] clearing = [.. facts.Cuts(FeatureKind.Plug)];
        if (clearing.Length > 0)
        {
            Compare(facts, "the face round the plugs", clearing.Min(p => p.FloorZ), facts.Face);
        }
        double tolerance = facts.Job.Plate.PlacingTolerance;
        Shape.Area area = new(FactRun.Boundary(skims[0]));
        double shortBy = new[]
        {
            area.Bounds.MinX - (box.MinX - tolerance),
            box.MaxX + tolerance - area.Bounds.MaxX,
            area.Bounds.MinY - (box.MinY - tolerance),
            box.MaxY + tolerance - area.Bounds.MaxY,
        }.Max();
        if (shortBy > Same)
        {
            FactFindings.Wall(facts, "the skim", box.Middle, -shortBy, 0, Setup.Top);
        }
    }

    private static double? Edge(Plate plate, Func<Point2, double> along, Func<Point2, double> place, double size)
    {
        EdgeStop? stop = plate.Stops.FirstOrDefault(s => Math.Abs(along(s.Normal)) > 0.99);
        return stop is null ? null
            : along(stop.Normal) > 0 ? place(stop.At)
            : place(stop.At) - size;
    }

    private static void Compare(FactRun facts, string what, double design, double job)
    {
        if (!(Math.Abs(design - job) <= Same))
        {
            FactFindings.Job(facts, what, design, job, "mm");
        }
    }
}

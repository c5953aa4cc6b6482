using System.Collections.Immutable;
using FixtureGen.Design.Block;
using FixtureGen.Geometry;
using FixtureGen.Holding.Block;
using FixtureGen.Model;
using FixtureGen.Toolpaths.Methods;
using FixtureGen.Toolpaths.Moves;

namespace FixtureGen.Toolpaths;

/// <summary>
/// From the design to the programs of its block and of its trim, in the order they are run: underside where the design has
/// one, top, trim. Moves are in each setup's own frame, mm.
/// </summary>
public static class OperationPlanner
{
    /// <summary>Free height above the clearance height for tool changes and the way home, mm (common practice, no source).</summary>
    private const double SafeGap = 25;

    /// <summary>
    /// Two or three programs. Failed, with what is short and by how much, where no tool in the rack can cut a feature
    /// (no-tool-fits) or nothing is left to skim.
    /// </summary>
    /// <param name="hold">Of this design and job: cuts are made lighter until it holds the block.</param>
    public static Stage<ImmutableArray<ProgramPlan>> Plan(
        FixtureDesign design,
        Job job,
        BlockHolding hold,
        Tolerances tolerances
    )
    {
        Kernel kernel = new(tolerances);
        List<Finding> findings = [];
        var programs = ImmutableArray.CreateBuilder<ProgramPlan>();
        if (design.Flip is { } flip)
        {
            Take(BlockProgram.Plan(UndersideFrame(design, job, flip, kernel), design, hold));
        }
        Take(BlockProgram.Plan(TopFrame(design, job, kernel), design, hold));
        Take(TrimProgram.Plan(design, job, kernel));
        bool drills = job.Tools.Any(t => t.Kind == ToolKind.Drill);
        if (drills && job.BlockMaterial.Drilling is null && design.Features.OfType<HoleFeature>().Any())
        {
            findings.Add(ToolpathFindings.NoDrillChart(job));
        }
        Tool[] faces = [.. job.Tools.Where(t => t.Kind == ToolKind.FaceMill)];
        if (faces.Length > 0 && !SkimMethods.FaceMills(job, design.Placement.BlankBox).Any())
        {
            findings.Add(ToolpathFindings.FaceMillUnused(faces.MinBy(t => t.Diameter)!, job));
        }
        findings.AddRange(KernelNotes.Notes(kernel.Repairs, "toolpaths"));
        return findings.Any(f => f.Severity == Severity.Error)
            ? Stage.Failed<ImmutableArray<ProgramPlan>>(findings)
            : Stage.Answer(programs.ToImmutable(), findings);

        void Take(Stage<ProgramPlan> stage)
        {
            findings.AddRange(stage.Findings);
            if (stage.Value is not null)
            {
                programs.Add(stage.Value);
            }
        }
    }

    /// <summary>The height for changing tools: above the clearance height, inside the machine's travel.</summary>
    public static double SafeZ(Job job, double clearance) =>
        Math.Max(clearance, Math.Min(clearance + SafeGap, job.Plate.Machine.Travel.MaxZ));

    internal static Frame TopFrame(FixtureDesign design, Job job, Kernel kernel)
    {
        double face = design.FixtureHeight;
        double clearance = Math.Max(job.BlankThickest, face + ProudBolt(design, job)) + Heights.ClearanceGap;
        return new Frame(
            Setup.Top,
            job,
            kernel,
            new Heights(face, HasPlug(design) ? job.BlankThickest + Heights.HopGap : face + Heights.HopGap, clearance),
            design.Placement.BlankBox,
            [.. design.Features.Where(f => f.Setup == Setup.Top && !f.Removals.IsEmpty)],
            ImmutableSortedDictionary<int, double>.Empty
        );
    }

    internal static Frame UndersideFrame(FixtureDesign design, Job job, Flip flip, Kernel kernel)
    {
        double face = Math.Max(design.RawThickness, job.BlankThickest);
        Box2 b = design.Placement.BlankBox;
        return new Frame(
            Setup.Underside,
            job,
            kernel,
            new Heights(face, face + Heights.HopGap, face + Heights.ClearanceGap),
            new Box2((2 * flip.AxisX) - b.MaxX, b.MinY, (2 * flip.AxisX) - b.MinX, b.MaxY),
            [
                .. design
                    .Features.Where(f => f.Setup == Setup.Underside && !f.Removals.IsEmpty)
                    .Select(f => Turned.Raised(Turned.Over(f, flip, design.RawThickness), design.RawThickness, face)),
            ],
            ImmutableSortedDictionary<int, double>.Empty
        );
    }

    /// <summary>Where a plug stands, the tool travels as high as over the raw block.</summary>
    private static bool HasPlug(FixtureDesign design) => design.Features.Any(f => f.Kind == FeatureKind.Plug);

    /// <summary>How far a bolt's head stands above the face once the bolts are in, mm.</summary>
    private static double ProudBolt(FixtureDesign design, Job job)
    {
        double head = job.Bolt.HeadHeight + job.Bolt.WasherThickness;
        double[] seats =
        [
            .. design
                .Features.OfType<HoleFeature>()
                .Where(f => f.Kind == FeatureKind.Counterbore)
                .Select(f => f.TopZ - f.FloorZ),
        ];
        return seats.Length == 0 ? head : Math.Max(0, head - seats.Min());
    }
}

using System.Collections.Immutable;
using FixtureGen.Holding.Block;
using FixtureGen.Model;
using FixtureGen.Toolpaths;
using FixtureGen.Toolpaths.Methods;

namespace FixtureGen.Solve.Search;

/// <summary>
/// What a cutter that the rack does not have would save on this block: the block is planned again with each of the usual cutters that a
/// feature asks for, one at a time, and the planner's own clock says the difference.
/// </summary>
internal static class MissingCutters
{
    /// <summary>Less than this is not worth a place in the changer, minutes a block.</summary>
    private const double WorthSaying = 0.1;

    /// <summary>Face mills as sold, largest first, mm.</summary>
    private static readonly ImmutableArray<double> FaceSizes = [76.2, 63.5, 50.8, 38.1, 25.4];

    /// <summary>A first drill leaves so much of the hole to the mill, mm on diameter (common practice, no source).</summary>
    private const double LeftByDrill = 0.3;

    /// <summary>A drill or mill of the rack within this is as good, mm.</summary>
    private const double Alike = 0.45;

    /// <summary>Drills are sold by 64ths of an inch and by tenths of a mm; tenths are finer.</summary>
    private const double DrillStep = 0.1;

    public static ImmutableArray<MissingCutter> Find(
        FixtureDesign design,
        Job job,
        ImmutableArray<ProgramPlan> plans,
        Tolerances tolerances
    )
    {
        double now = Minutes(plans, job);
        return
        [
            .. Wanted(design, job)
                .Select(t => new MissingCutter(t.Kind, t.Diameter, now - With(t)))
                .Where(m => m.MinutesSaved >= WorthSaying)
                .OrderByDescending(m => m.MinutesSaved),
        ];

        double With(Tool tool)
        {
            Job richer = job with { Tools = job.Tools.Add(tool) };
            Stage<ImmutableArray<ProgramPlan>> planned = OperationPlanner.Plan(
                design,
                richer,
                new BlockHolding(design, richer),
                tolerances
            );
            return planned.Ok ? Minutes(planned.Value, richer) : now;
        }
    }

    private static double Minutes(ImmutableArray<ProgramPlan> plans, Job job) =>
        plans.Where(p => p.Setup != Setup.Trim).Sum(p => PlanMinutes.Measure(p, job.Plate.Machine));

    private static IEnumerable<Tool> Wanted(FixtureDesign design, Job job)
    {
        int number = job.Tools.Max(t => t.Number) + 1;
        Box2 block = design.Placement.BlankBox;
        if (!SkimMethods.FaceMills(job, block).Any())
        {
            foreach (double d in FaceSizes)
            {
                Tool face = Usual(ToolKind.FaceMill, d, number);
                if (SkimMethods.FaceMills(job with { Tools = [face] }, block).Any())
                {
                    yield return face;
                    break;
                }
            }
        }
        HoleFeature[] bored =
        [
            .. design
                .Features.OfType<HoleFeature>()
                .Where(h => h.Kind is FeatureKind.LocatorHole or FeatureKind.PinHole or FeatureKind.BoltHole)
                .DistinctBy(h => (Math.Round(h.Diameter, 2), h.Kind)),
        ];
        foreach (HoleFeature hole in job.BlockMaterial.Drilling is null ? [] : bored)
        {
            double size =
                hole.Kind == FeatureKind.BoltHole
                    ? hole.Diameter
                    : Math.Floor((hole.Diameter - LeftByDrill) / DrillStep) * DrillStep;
            bool has = job.Tools.Any(t =>
                t.Kind == ToolKind.Drill && t.Diameter <= size + 0.02 && t.Diameter > size - Alike
            );
            if (!has)
            {
                yield return Usual(ToolKind.Drill, size, number);
            }
        }
        foreach (
            double width in design
                .Features.OfType<GrooveFeature>()
                .Select(g => g.Width)
                .Distinct()
                .Where(w => !job.Tools.Any(t => t.Kind == ToolKind.EndMill && Math.Abs(t.Diameter - w) <= 0.02))
        )
        {
            yield return Usual(ToolKind.EndMill, width, number);
        }
    }

    /// <summary>A cutter of usual make: as catalogues have them (common practice, no source).</summary>
    private static Tool Usual(ToolKind kind, double diameter, int number)
    {
        double flutes = kind switch
        {
            ToolKind.Drill => Math.Max(10 * diameter, 30),
            ToolKind.FaceMill => 6,
            ToolKind.EndMill or ToolKind.BallMill or ToolKind.Engraver => 3.5 * diameter,
        };
        return new Tool
        {
            Name = "missing",
            Number = number,
            Kind = kind,
            Diameter = diameter,
            Flutes = 2,
            FluteLength = flutes,
            ShankDiameter = kind == ToolKind.FaceMill ? 20 : diameter,
            StickOut = Math.Max(flutes + 8, 25),
            HolderDiameter = 25.4,
            TipAngleDeg = kind == ToolKind.Drill ? 118 : 180,
            TipDiameter = 0,
            Helix = kind == ToolKind.FaceMill ? HelixDirection.Straight : HelixDirection.Up,
            HelixAngleDeg = kind == ToolKind.FaceMill ? 0 : 30,
            CentreCutting = kind == ToolKind.EndMill,
            MaxStepDown = kind == ToolKind.FaceMill ? 2 : flutes,
            MaxRampDeg = 5,
            RunOut = 0.02,
            MaxRpm = 24000,
        };
    }
}

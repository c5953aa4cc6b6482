using System.Collections.Immutable;
using FixtureGen.Cutting;
using FixtureGen.Model;
using FixtureGen.Toolpaths.Moves;

namespace FixtureGen.Toolpaths.Methods;

/// <summary>Round holes and round pockets bored by a helix.</summary>
internal static class RoundMethods
{
    /// <summary>
    /// The feed of the tool's centre is lowered by its circle's share of the hole, so that the rim keeps the chip load, but
    /// no further than this: a helix takes thin chips (common practice, no source).
    /// </summary>
    public const double LeastShare = 0.25;

    /// <summary>Left on a wall that matters for the last turn: a share of the tool, at most so much, mm (common practice, no source).</summary>
    private const double AllowanceShare = 0.025;
    private const double MostAllowance = 0.15;

    /// <summary>End mills that turn in a hole: neither filling it nor leaving a core.</summary>
    public static ImmutableArray<Tool> Turning(double diameter, double floorZ, Frame frame) =>
        frame.Reaching(floorZ, t => diameter >= Bore.Least * t.Diameter && diameter <= Bore.Greatest * t.Diameter);

    public static ToolCut Helix(
        Feature feature,
        Point2 at,
        double diameter,
        double topZ,
        double floorZ,
        Tool tool,
        Frame frame
    )
    {
        CutData data = frame.Data(tool, tool.Diameter);
        double share = Math.Max(LeastShare, (diameter - tool.Diameter) / diameter);
        double allowance = Allowance(feature.Kind, tool, frame.Heights.Face - floorZ);
        double turn = Math.PI * (diameter - tool.Diameter);
        double pitch = Math.Min(data.StepDown, turn * Math.Tan(data.MaxRampDeg * Math.PI / 180));
        double stepDown = data.StepDown;
        data = AtTheWall(data, share) with { StepDown = pitch };
        return new ToolCut(
            tool,
            OperationKind.Bore,
            data,
            (topZ - floorZ) / pitch * turn / data.Feed,
            () => [Bore.Hole(feature.Name, at, diameter, tool, data, frame.Heights, topZ, floorZ, allowance, stepDown)]
        );
    }

    /// <summary>The feed of the cutter's centre, whole tens of mm/min, at which its rim has the stated feed along a round wall.</summary>
    /// <param name="share">The centre's way over the wall's.</param>
    public static CutData AtTheWall(CutData data, double share) =>
        data with
        {
            Feed = Math.Max(10, Math.Floor(data.Feed * share / 10) * 10),
            LimitedBy = data.LimitedBy + " at the bore's wall, so less at the cutter's centre",
        };

    /// <summary>The circle that a region is, or null.</summary>
    public static (Point2 Centre, double Diameter)? Circle(Region region)
    {
        Segment first = region.Outer.Segments[0];
        bool round =
            region.Holes.IsEmpty
            && first.IsArc
            && region.Outer.Segments.All(s =>
                s.IsArc && s.Centre.DistanceTo(first.Centre) < 1e-6 && Math.Abs(s.Radius - first.Radius) < 1e-6
            );
        return round ? (first.Centre, 2 * first.Radius) : null;
    }

    /// <summary>What roughing leaves on the walls of pins, locators and magnets where the flutes reach the whole wall.</summary>
    public static double Allowance(FeatureKind kind, Tool tool, double deep) =>
        kind is FeatureKind.PinHole or FeatureKind.PinSlot or FeatureKind.LocatorHole or FeatureKind.MagnetPocket
        && tool.FluteLength >= deep
            ? Math.Min(MostAllowance, AllowanceShare * tool.Diameter)
            : 0;
}

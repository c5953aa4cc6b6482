using System.Collections.Immutable;
using FixtureGen.Cutting;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Trim;

/// <summary>
/// Round cutouts that the trim cutter does not fit into and that a drill of the rack makes: one of their size, within
/// <see cref="SizeOff"/>, that reaches through the thickest shell, in a material with a drilling chart. Plate frame, mm.
/// </summary>
internal static class DrillChoice
{
    /// <summary>How far a drill's diameter may be off the drawn one, mm.</summary>
    public const double SizeOff = 0.1;

    /// <summary>How far from a circle a cutout may be and still be drilled, mm.</summary>
    private const double Round = 0.01;

    /// <summary>The drill of each cutout by its index, null where none makes it: it is not round, too wide, or the job wants it otherwise.</summary>
    public static ImmutableArray<Tool?> ForCutouts(ImmutableArray<Contour> cutouts, Job job, Kernel kernel) =>
        job.SmallHoles is SmallHoles.Unsaid or SmallHoles.Drill
            ? [.. cutouts.Select(c => SecondCutter.Fits(c, job.TrimTool, kernel) ? null : ForHole(c, job))]
            : [.. cutouts.Select(_ => (Tool?)null)];

    /// <summary>Every drilled cutout, in the drawing's order.</summary>
    public static ImmutableArray<DrilledHole> Plan(Part placed, Job job, Kernel kernel)
    {
        ImmutableArray<Tool?> drills = ForCutouts(placed.Cutouts, job, kernel);
        return
        [
            .. placed
                .Cutouts.Select((c, i) => (Edge: c, Drill: drills[i], Name: TrimPlanner.NameOf(i, drills.Length)))
                .Where(h => h.Drill is not null)
                .Select(h => Hole(h.Name, h.Edge, h.Drill!, job)),
        ];
    }

    /// <summary>Whether a cutout is round.</summary>
    public static bool IsRound(Contour cutout) => Circles.IsCircle(cutout, Round);

    /// <summary>The rack's drills that reach through the shell, by how near their size is to a cutout's.</summary>
    public static IEnumerable<Tool> Nearest(Contour cutout, Job job) =>
        job
            .Tools.Where(t => t.Kind == ToolKind.Drill && t.FluteLength >= job.Shell.ThicknessMax + Below(t))
            .OrderBy(t => Math.Abs(t.Diameter - Diameter(cutout)))
            .ThenBy(t => t.Name, StringComparer.Ordinal);

    /// <summary>Of a round cutout, mm.</summary>
    public static double Diameter(Contour cutout) => 2 * cutout.Segments[0].Radius;

    /// <summary>What would let a cutout be drilled that is not, in words; empty where it is not round or the job wants it otherwise.</summary>
    public static string WouldDrill(Contour cutout, Job job)
    {
        if (!IsRound(cutout) || job.SmallHoles is not (SmallHoles.Unsaid or SmallHoles.Drill))
        {
            return "";
        }
        return job.ShellMaterial.Drilling is null
            ? $"give the material {job.ShellMaterial.Name} a drilling chart ([drill] and [[drill_feed]])"
            : FormattableString.Invariant($"put a drill of {Diameter(cutout):0.##} mm in the rack");
    }

    private static Tool? ForHole(Contour cutout, Job job) =>
        job.ShellMaterial.Drilling is not null
        && IsRound(cutout)
        && Nearest(cutout, job).FirstOrDefault() is { } drill
        && Math.Abs(drill.Diameter - Diameter(cutout)) <= SizeOff + 1e-9
            ? drill
            : null;

    private static DrilledHole Hole(string name, Contour edge, Tool drill, Job job)
    {
        Point2 at = edge.Segments[0].Centre;
        return new DrilledHole
        {
            Name = name,
            Edge = edge,
            At = at,
            Tool = drill,
            FloorZ = job.Rules.FixtureHeight - Below(drill),
            Sweep = Region.From(Contours.Circle(at, drill.Radius)),
        };
    }

    /// <summary>How far the point goes below the shell, mm.</summary>
    private static double Below(Tool drill) => drill.ConeHeight + ShellDrill.BreakThrough;
}

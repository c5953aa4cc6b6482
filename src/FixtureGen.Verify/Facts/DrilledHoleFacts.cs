using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Verify.Shape;

namespace FixtureGen.Verify.Facts;

/// <summary>
/// A drilled hole of the shell against drawing, rack and job: the drawn cutout is round and too small for the trim cutter, the job lets it
/// be drilled, the drill stands in the rack, is of its size and in its middle, and its corners go through the shell, but not far below.
/// </summary>
internal static class DrilledHoleFacts
{
    /// <summary>How far below the shell a drill's corners may end, mm: the least leaves no burr's lid, the most keeps it out of the block (common practice, no source).</summary>
    private const double LeastThrough = 0.2;
    private const double MostThrough = 1;

    public static void Check(FactRun facts, DrilledHole hole, ImmutableArray<Piece> edge)
    {
        Tool tool = hole.Tool;
        if (facts.Job.SmallHoles is not (SmallHoles.Unsaid or SmallHoles.Drill))
        {
            FactFindings.Trim(facts, hole.Name, "it is drilled, and the job wants it otherwise", hole.At);
        }
        if (tool.Kind != ToolKind.Drill || !facts.Job.Tools.Contains(tool))
        {
            FactFindings.Trim(facts, hole.Name, $"{tool.Name} is no drill of the rack", hole.At);
            return;
        }
        double round = edge.All(p => p.IsArc)
            ? edge.Max(p => Math.Abs(p.R - edge[0].R) + p.C.DistanceTo(edge[0].C))
            : 1;
        if (round > Fits.Place)
        {
            FactFindings.Trim(facts, hole.Name, "it is drilled and drawn as no circle", hole.At);
            return;
        }
        (Point2 middle, double drawn) = (edge[0].C, 2 * edge[0].R);
        if (hole.At.DistanceTo(middle) > Fits.Drawing)
        {
            FactFindings.Drawing(facts, hole.Name, hole.At.DistanceTo(middle), middle);
        }
        double off = tool.Diameter - drawn;
        if (Math.Abs(off) > Fits.DrilledHole + 1e-9)
        {
            FactFindings.Trim(
                facts,
                hole.Name,
                FormattableString.Invariant(
                    $"its drill is {Math.Abs(off):0.###} mm {(off > 0 ? "larger" : "smaller")} than drawn, {Fits.DrilledHole:0.##} mm is allowed"
                ),
                middle
            );
        }
        if (drawn > facts.Job.TrimTool.Diameter + Fits.DrilledHole)
        {
            FactFindings.Trim(facts, hole.Name, "it is drilled and the trim cutter fits into it", middle);
        }
        double cone = tool.Diameter / 2 / Math.Tan(tool.TipAngleDeg * Math.PI / 360);
        double through = facts.Face - hole.FloorZ - cone;
        if (through is < LeastThrough or > MostThrough)
        {
            FactFindings.Trim(
                facts,
                hole.Name,
                FormattableString.Invariant(
                    $"its drill's corners end {through:0.###} mm below the shell, {LeastThrough:0.##} to {MostThrough:0.##} mm is right"
                ),
                middle
            );
        }
    }
}

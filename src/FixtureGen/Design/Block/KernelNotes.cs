using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Block;

/// <summary>What a person must know of kernels' repairs: those that left something of the drawing out or moved it.</summary>
public static class KernelNotes
{
    /// <summary>
    /// The notes geometry-micro-edges with the greatest number and geometry-recentred with the farthest move, where there was
    /// any by more than the grid. Snapping moves nothing by as much as the grid, side test and fall-back change no curve: none of them is noted.
    /// </summary>
    /// <param name="where">The stage that the kernel worked for; the finding's place.</param>
    public static IEnumerable<Finding> Notes(IReadOnlyCollection<KernelRepair> repairs, string where)
    {
        double most = Most(repairs, RepairKind.MicroEdges);
        if (most > 0)
        {
            yield return new(
                "geometry-micro-edges",
                Severity.Note,
                where,
                FormattableString.Invariant($"edges under 0.000001 mm were left out, up to {most:0} at once"),
                "Nothing to do; to be rid of the note, join the drawing's shortest edges."
            );
        }
        double moved = Most(repairs, RepairKind.Recentred);
        if (moved > Tolerances.House.Grid)
        {
            yield return new(
                "geometry-recentred",
                Severity.Note,
                where,
                FormattableString.Invariant(
                    $"arcs whose ends did not fit their radius were led through both ends, which moved them by up to {moved:0.######} mm"
                ),
                "Nothing to do; to be rid of the note, draw with more decimals."
            );
        }
    }

    private static double Most(IReadOnlyCollection<KernelRepair> repairs, RepairKind kind) =>
        repairs.Where(r => r.Kind == kind).Select(r => r.Amount).DefaultIfEmpty(0).Max();
}

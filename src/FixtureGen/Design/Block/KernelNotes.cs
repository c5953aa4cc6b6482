using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Block;

/// <summary>What a person must know of kernels' repairs: those that left something of the drawing out.</summary>
public static class KernelNotes
{
    /// <summary>
    /// The note geometry-micro-edges with the greatest number, where any were left out. Snapping moves nothing by as much as
    /// the grid, side test and fall-back change no curve: none of them is said.
    /// </summary>
    /// <param name="where">The stage that the kernel worked for; the finding's place.</param>
    public static IEnumerable<Finding> Notes(IReadOnlyCollection<KernelRepair> repairs, string where)
    {
        double most = repairs.Where(r => r.Kind == RepairKind.MicroEdges).Select(r => r.Amount).DefaultIfEmpty(0).Max();
        return most == 0
            ? []
            :
            [
                new(
                    "geometry-micro-edges",
                    Severity.Note,
                    where,
                    FormattableString.Invariant($"edges under 0.000001 mm were left out, up to {most:0} at once"),
                    "Nothing to do; to be rid of the note, join the drawing's shortest edges."
                ),
            ];
    }
}

using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>What a person must know of kernels' repairs: those that changed a curve.</summary>
public static class KernelNotes
{
    /// <summary>
    /// One note a kind (geometry-micro-edges, geometry-perturbed, geometry-fall-back) with the greatest amount; the side test
    /// changes no curve, and snapping none by as much as the grid: neither is told.
    /// </summary>
    /// <param name="where">The stage that the kernel worked for; the findings' place.</param>
    public static IEnumerable<Finding> Of(IReadOnlyCollection<KernelRepair> repairs, string where) =>
        repairs
            .Where(r => r.Kind is not (RepairKind.SideTest or RepairKind.Snapped))
            .GroupBy(r => r.Kind)
            .OrderBy(g => g.Key)
            .Select(g => Note(g.Key, g.Count(), g.Max(r => Math.Abs(r.Amount)), where));

    private static Finding Note(RepairKind kind, int times, double most, string where) =>
        kind switch
        {
            RepairKind.MicroEdges => new(
                "geometry-micro-edges",
                Severity.Note,
                where,
                FormattableString.Invariant($"edges under 0.000001 mm were left out, up to {most:0} at once"),
                "Nothing to do; to be rid of the note, join the drawing's shortest edges."
            ),
            RepairKind.Perturbed => new(
                "geometry-perturbed",
                Severity.Note,
                where,
                FormattableString.Invariant(
                    $"{times} results were moved by up to {most:0.#####} mm to clear exact coincidences"
                ),
                "Nothing to do; the amount is far below what the machine holds."
            ),
            _ => new(
                "geometry-fall-back",
                Severity.Note,
                where,
                FormattableString.Invariant($"{times} results were redone on chords, up to {most:0.####} mm off"),
                "Look at the picture; where the drawing touches or retraces itself, draw it clean."
            ),
        };
}

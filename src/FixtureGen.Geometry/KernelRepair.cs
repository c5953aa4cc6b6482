namespace FixtureGen.Geometry;

/// <summary>What the kernel did to reach a result that proved itself.</summary>
public enum RepairKind
{
    /// <summary>Curves shorter than the grid were left out of what is offset.</summary>
    MicroEdges,

    /// <summary>The input touches or overlaps itself; pieces on its wrong side were taken out.</summary>
    SideTest,

    /// <summary>The distance or place was changed, by 0.00001 to 0.0003 mm, to get clear of an exact coincidence.</summary>
    Perturbed,

    /// <summary>Points or curves that lay within a hair of each other were moved onto each other.</summary>
    Snapped,

    /// <summary>The work was redone with chords by the polygon library, and the arcs recovered.</summary>
    FallBack,
}

/// <summary>One repair and the kernel's operation that it served.</summary>
/// <param name="Amount">
/// Micro-edges: how many. Perturbed: the change of the distance, signed, or the move of the second set, mm. Snapped: the
/// farthest that any point was moved, mm. Fall-back: the most that the result is off, mm. Side test: 0.
/// </param>
public sealed record KernelRepair(RepairKind Kind, string Operation, double Amount);

/// <summary>
/// Neither the exact work nor the fall-back could be proven: our own fault, or input that is no region at all. A run of the
/// pipeline turns it into the finding geometry-unproven.
/// </summary>
public sealed class KernelException(string message) : Exception(message);

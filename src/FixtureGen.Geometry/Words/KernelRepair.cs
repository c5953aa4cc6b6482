namespace FixtureGen.Geometry;

/// <summary>What the kernel did to reach a result that proved itself.</summary>
public enum RepairKind
{
    /// <summary>Curves shorter than the grid were left out of what is offset.</summary>
    MicroEdges,

    /// <summary>The input touches or overlaps itself; pieces on its wrong side were taken out.</summary>
    SideTest,

    /// <summary>Points or curves within a hair of each other were moved onto each other, or edges shorter than the grid left out.</summary>
    Snapped,

    /// <summary>
    /// Arcs whose ends lie at unlike distances from their centre, as a drawing's rounding makes them, were led through both ends
    /// by moving the centre; arcs of radii that doubles cannot hold became chords.
    /// </summary>
    Recentred,

    /// <summary>The parallel was redone by its definition, from what a disc covers along every curve; as exact as the plain way.</summary>
    FallBack,
}

/// <summary>One repair and the kernel's operation that it served.</summary>
/// <param name="Amount">
/// Micro-edges: how many. Snapped and recentred: the farthest that any point was moved, mm. Side test and fall-back: 0.
/// </param>
public sealed record KernelRepair(RepairKind Kind, string Operation, double Amount);

/// <summary>
/// Neither the plain way nor the one by definition could be proven: our own fault, or input that is no region at all. A run of the
/// pipeline turns it into the finding geometry-unproven.
/// </summary>
public class KernelException(string message) : Exception(message);

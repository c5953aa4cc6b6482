namespace FixtureGen.Geometry;

/// <summary>What the kernel did to reach a result that proved itself.</summary>
public enum RepairKind
{
    /// <summary>Curves shorter than the grid were left out of the input.</summary>
    MicroEdges,

    /// <summary>The input touches or overlaps itself; pieces on its wrong side were taken out.</summary>
    SideTest,

    /// <summary>The distance or place was changed by a tenth of a micrometre or more to get clear of an exact coincidence.</summary>
    Perturbed,

    /// <summary>The work was redone with chords by the polygon library, and the arcs recovered.</summary>
    FallBack,
}

/// <summary>One repair: what, in which operation, by how much (mm; for micro-edges how many).</summary>
public sealed record KernelRepair(RepairKind Kind, string Operation, double Amount);

/// <summary>Neither the exact work nor the fall-back could be proven: our own fault, or input that is no region at all.</summary>
public sealed class KernelException(string message) : Exception(message);

namespace FixtureGen.Geometry;

/// <summary>What the kernel did to reach a result that proved itself.</summary>
public enum RepairKind
{
    /// <summary>Curves shorter than the grid were left out of the input.</summary>
    MicroEdges,

    /// <summary>The input touches or overlaps itself; pieces on its wrong side were taken out.</summary>
    SideTest,

    /// <summary>The distance was changed by some tenths of a micrometre to get clear of an exact coincidence.</summary>
    Perturbed,

    /// <summary>The work was redone with chords by the polygon library, and the arcs recovered.</summary>
    FallBack,

    /// <summary>Nothing proved itself; the result must not be used.</summary>
    Failed,
}

/// <summary>One repair: what, in which operation, by how much (mm, or a count for micro-edges).</summary>
public sealed record KernelRepair(RepairKind Kind, string Operation, double Amount);

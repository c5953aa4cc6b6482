namespace FixtureGen.Geometry;

/// <summary>How a parallel is made where the plain way could not be proven. All ways are exact and proven alike.</summary>
/// <param name="Lenient">
/// Pieces a slice too near their source are kept. Plainly only those are that snapping may have moved there: where two
/// parallels run along each other in a gap a hair too narrow, both fall out or both stay.
/// </param>
/// <param name="SideTest">Pieces on the wrong side of the source fall out too, which only sources that touch or overlap themselves need.</param>
/// <param name="Widening">How many times the usual distance is snapped.</param>
internal readonly record struct OffsetWay(bool Lenient, bool SideTest, double Widening)
{
    /// <summary>The way of all but rare cases.</summary>
    public static OffsetWay Plain { get; } = new(Lenient: false, SideTest: false, Widening: 1);

    /// <summary>The ways in the order in which they are tried; no point moves by more than the grid in any.</summary>
    public static IReadOnlyList<OffsetWay> All { get; } =
    [
        Plain,
        new(Lenient: true, SideTest: false, Widening: 1),
        new(Lenient: false, SideTest: true, Widening: 1),
        new(Lenient: true, SideTest: true, Widening: 1),
        new(Lenient: false, SideTest: false, Widening: 2),
        new(Lenient: false, SideTest: false, Widening: 4),
        new(Lenient: false, SideTest: true, Widening: 4),
    ];
}

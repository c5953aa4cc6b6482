namespace FixtureGen.Geometry;

/// <summary>By how much a piece of a parallel may be too near its source and still be kept.</summary>
internal enum Leniency
{
    /// <summary>
    /// By no more than snapping may have moved it there: where two parallels run along each other in a gap a hair too narrow,
    /// both fall out.
    /// </summary>
    Moved,

    /// <summary>By nothing, whatever was moved.</summary>
    None,

    /// <summary>By a slice.</summary>
    Slice,
}

/// <summary>How a parallel is made where the plain way could not be proven. All ways are exact and proven alike.</summary>
/// <param name="SideTest">Pieces on the wrong side of the source fall out too, which only sources that touch or overlap themselves need.</param>
/// <param name="Widening">How many times the usual distance is snapped.</param>
/// <param name="Retraced">Parallels that meet in the middle of a gap leave nothing there however many they are, which only sources that retrace themselves need.</param>
internal readonly record struct OffsetWay(Leniency Leniency, bool SideTest, double Widening, bool Retraced = false)
{
    /// <summary>The way of all but rare cases.</summary>
    public static OffsetWay Plain { get; } = new(Leniency.Moved, SideTest: false, Widening: 1);

    /// <summary>The ways in the order in which they are tried; no point moves by more than the grid in any.</summary>
    public static IReadOnlyList<OffsetWay> All { get; } =
    [
        Plain,
        new(Leniency.None, SideTest: false, Widening: 1),
        new(Leniency.Slice, SideTest: false, Widening: 1),
        new(Leniency.Moved, SideTest: false, Widening: 1, Retraced: true),
        new(Leniency.Moved, SideTest: true, Widening: 1),
        new(Leniency.Slice, SideTest: true, Widening: 1),
        new(Leniency.Moved, SideTest: false, Widening: 2),
        new(Leniency.None, SideTest: false, Widening: 2),
        new(Leniency.Moved, SideTest: false, Widening: 4),
        new(Leniency.None, SideTest: false, Widening: 4),
        new(Leniency.Moved, SideTest: true, Widening: 4),
    ];
}

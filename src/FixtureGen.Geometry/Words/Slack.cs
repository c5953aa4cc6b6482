namespace FixtureGen.Geometry;

/// <summary>
/// The kernel's lengths below which something is nothing, mm: the one place where they are, all made from
/// <see cref="Tolerances"/>. Figures without a unit stand in <see cref="Rounding"/>; a test looks for any other.
/// </summary>
internal sealed record Slack
{
    /// <summary>What rounding leaves of nothing, in grids.</summary>
    public const double NoiseInGrids = 1e-3;

    /// <summary>Curves with ends no farther apart than this are looked at one by one, which costs time and changes nothing, mm.</summary>
    public const double LongEnough = 1e-3;

    /// <summary>Of a static function that nobody gives tolerances: <see cref="Tolerances.House"/>.</summary>
    public static readonly Slack House = From(Tolerances.House);

    /// <summary>Curves shorter than this are dropped; coordinates nearer than this are the same.</summary>
    public required double Grid { get; init; }

    /// <summary>
    /// The snapping distance: two points, or a point and a curve, this near touch. A tenth of the grid, so that three rounds of
    /// snapping and a corner moved by a short edge stay within two grids.
    /// </summary>
    public required double Near { get; init; }

    /// <summary>What rounding leaves of nothing: a move below it is not told.</summary>
    public required double Noise { get; init; }

    /// <summary>Curvatures, per mm, nearer than this are one: over ten millimetres they part by half the snapping distance.</summary>
    public required double Curvature { get; init; }

    /// <summary>A pointed corner stands for the arc that rounds it where the two differ by less: far below what is told.</summary>
    public required double Mitre { get; init; }

    /// <summary>The most by which a piece of a parallel may be too near its source and still be kept.</summary>
    public required double Slice { get; init; }

    /// <summary>How far a curve of an offset may lie off the distance and still be proven: twice what the distance test lets through.</summary>
    public required double Slop { get; init; }

    /// <summary>
    /// Loops thinner than this, area over length, are nothing: four slices across, which is what the proof of an offset cannot
    /// tell either.
    /// </summary>
    public required double Thin { get; init; }

    /// <summary>A curve that must lie this much deeper than it seems is buried for certain, before anything is cut.</summary>
    public required double Buried { get; init; }

    /// <summary>
    /// A loose piece of a parallel shorter than this is the sliver at a tangent point that the distance test let through (its
    /// height is under a slice); a longer one means that the result is broken.
    /// </summary>
    public required double Stub { get; init; }

    /// <summary>Contours of a drawing this near touch; a drawing's own rounding to five decimals.</summary>
    public required double Touch { get; init; }

    /// <summary>How far an arc's ends may differ in distance from its centre; a drawing's rounding to three decimals.</summary>
    public required double Radii { get; init; }

    /// <summary>Shorter pieces are not asked of by the proofs one by one: what they bound is as thin.</summary>
    public required double Scanned { get; init; }

    /// <summary>Arcs of smaller radius turn by more than nothing where an end moves by a grid.</summary>
    public required double TinyRadius { get; init; }

    /// <summary>The slacks that go with tolerances; of those Grid and Slice count.</summary>
    public static Slack From(Tolerances t) =>
        new()
        {
            Grid = t.Grid,
            Near = t.Grid / 10,
            Noise = NoiseInGrids * t.Grid,
            Curvature = t.Grid / 1_000,
            Mitre = t.Grid / 10_000,
            Slice = t.Slice,
            Slop = 4 * t.Slice,
            Thin = 2 * t.Slice,
            Buried = 10 * t.Slice,
            Stub = 25_000 * t.Slice,
            Touch = 10 * t.Grid,
            Radii = 1_000 * t.Grid,
            Scanned = 1_000 * t.Grid,
            TinyRadius = 100_000 * t.Grid,
        };
}

using FixtureGen.Model;

namespace FixtureGen.Design.Block;

/// <summary>
/// The block goes on one way only: none of the other ways to set it on the two pins may bring every bolt hole over a
/// bolt of the plate while the block stays clear of the edge stops.
/// </summary>
internal static class OneWayOnly
{
    /// <summary>How far a hole may be off and a bolt still start, mm (common practice, no source).</summary>
    private const double BoltFinds = 1;

    /// <summary>The other way that fits, in words; null where none does.</summary>
    public static string? OtherWay(Plate plate, Box2 block)
    {
        Point2 middle = 0.5 * (plate.PinRound.At + plate.PinSlot.At);
        Point2 along = plate.PinSlot.At - plate.PinRound.At;
        along *= 1 / along.Length;
        Point2 across = along.Left;
        return Ways(middle, along, across).FirstOrDefault(w => Fits(plate, block, w.Move)).Name;
    }

    private static IEnumerable<(string? Name, Func<Point2, Point2> Move)> Ways(
        Point2 middle,
        Point2 along,
        Point2 across
    ) =>
        [
            ("turned by half a turn", p => (2 * middle) - p),
            ("turned over about the pin line", p => Mirror(p, middle, across)),
            ("turned over about the line across the pins", p => Mirror(p, middle, along)),
        ];

    private static Point2 Mirror(Point2 p, Point2 middle, Point2 normal) => p - (2 * (p - middle).Dot(normal) * normal);

    private static bool Fits(Plate plate, Box2 block, Func<Point2, Point2> move)
    {
        PlateOpening[] bolts = [.. Bolts.Within(plate, block)];
        bool boltsFit = bolts.All(b => bolts.Any(o => o.At.DistanceTo(move(b.At)) <= BoltFinds));
        bool stopsLetIt = ClearOfStops(plate, block, move);
        return boltsFit && stopsLetIt;
    }

    private static bool ClearOfStops(Plate plate, Box2 block, Func<Point2, Point2> move)
    {
        Point2[] corners =
        [
            new(block.MinX, block.MinY),
            new(block.MaxX, block.MinY),
            new(block.MaxX, block.MaxY),
            new(block.MinX, block.MaxY),
        ];
        return plate.Stops.All(s => corners.All(c => (move(c) - s.At).Dot(s.Normal) >= -BoltFinds));
    }
}

using FixtureGen.Model;

namespace FixtureGen.Design.Block;

/// <summary>Where the plate's edge stops put a raw blank: its nominal box in the plate frame.</summary>
internal static class BlankSeat
{
    /// <summary>The box, or a finding where the stops do not hold an edge in X and one in Y.</summary>
    public static Stage<Box2> Seat(Plate plate, Blank blank)
    {
        double? x = Edge(plate, n => n.X, p => p.X, blank.Width);
        double? y = Edge(plate, n => n.Y, p => p.Y, blank.Height);
        return x is { } minX && y is { } minY
            ? Stage.Answer(new Box2(minX, minY, minX + blank.Width, minY + blank.Height))
            : Stage.Failed<Box2>(BlockFindings.StopsDoNotSeat(plate.Name, x is null ? "X" : "Y"));
    }

    /// <summary>From the relief's outer wall to the block's nominal edge, mm.</summary>
    public static double EdgeMargin(Job job) => job.Rules.Wall + job.Plate.PlacingTolerance;

    private static double? Edge(Plate plate, Func<Point2, double> normal, Func<Point2, double> place, double size)
    {
        foreach (EdgeStop stop in plate.Stops)
        {
            if (Math.Abs(normal(stop.Normal)) > 0.99)
            {
                return normal(stop.Normal) > 0 ? place(stop.At) : place(stop.At) - size;
            }
        }
        return null;
    }
}

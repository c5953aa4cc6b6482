using FixtureGen.Cutting;
using FixtureGen.Model;

namespace FixtureGen.Toolpaths.Moves;

/// <summary>
/// A round hole bored by a helix, climb (counter-clockwise inside), one flat turn at the floor; left by a small half circle;
/// with an allowance the wall is finished by one more turn at full depth, or by a few as deep as the block's hold bears, reached and
/// left by large ones.
/// </summary>
internal static class Bore
{
    /// <summary>Least and greatest hole for a helix, in tool diameters: below there is no room to turn, above a core stays.</summary>
    public const double Least = 1.2;

    public const double Greatest = 1.95;

    /// <summary>Places round the hole where the helix may be begun.</summary>
    private const int Starts = 8;

    /// <summary>Radius of the half circle that leaves a wall which need not be smooth, mm at most (common practice, no source).</summary>
    private const double Leaving = 0.5;

    public static Piece Hole(
        string feature,
        Point2 centre,
        double diameter,
        Tool tool,
        CutData data,
        Heights heights,
        double topZ,
        double floorZ,
        double allowance,
        double stepDown
    )
    {
        double radius = (diameter - tool.Diameter) / 2;
        double rough = Math.Max(radius - allowance, radius / 2);
        return new Piece(
            feature,
            [
                .. Enumerable
                    .Range(0, Starts)
                    .Select(k =>
                    {
                        (double sin, double cos) = Math.SinCos(2 * Math.PI * k / Starts);
                        Point2 outward = new(cos, sin);
                        return new Way(
                            centre + (outward * rough),
                            Left(centre, outward, rough, radius),
                            pen => Cut(pen, centre, outward, rough, radius, tool, data, heights, topZ, floorZ, stepDown)
                        );
                    }),
            ]
        );
    }

    private static void Cut(
        Pen pen,
        Point2 centre,
        Point2 outward,
        double rough,
        double radius,
        Tool tool,
        CutData data,
        Heights heights,
        double topZ,
        double floorZ,
        double stepDown
    )
    {
        pen.Approach(topZ, data);
        double pitch = Math.Min(data.StepDown, 2 * Math.PI * rough * Math.Tan(data.MaxRampDeg * Math.PI / 180));
        foreach (double z in Passes.Down(topZ, floorZ, pitch))
        {
            pen.Turn(centre, ccw: true, z, data.Feed);
        }
        pen.Turn(centre, ccw: true, floorZ, data.Feed);
        if (radius - rough > 1e-6)
        {
            double lap = WallLaps.Depth(stepDown, radius, tool.Radius, radius - rough);
            double[] laps = [.. Passes.Down(topZ, floorZ, lap)];
            if (laps.Length > 1)
            {
                HalfTo(pen, centre, data.Feed);
            }
            foreach (double z in laps)
            {
                if (laps.Length > 1)
                {
                    pen.LineZ(z, data.Feed);
                }
                HalfTo(pen, centre - (outward * radius), data.Feed);
                pen.Turn(centre, ccw: true, z, data.Feed);
                Again(pen, centre, Overlap.Length(tool.Radius, 2 * Math.PI * radius), data.Feed);
                HalfTo(pen, centre, data.Feed);
            }
        }
        else
        {
            HalfTo(pen, Left(centre, outward, rough, radius), data.Feed);
        }
        pen.RapidZ(heights.Hop);
    }

    /// <summary>On along the wall's first stretch once more, so that no mark stands where the turn closes.</summary>
    private static void Again(Pen pen, Point2 centre, double length, double feed)
    {
        Point2 from = pen.At.Xy - centre;
        (double sin, double cos) = Math.SinCos(length / from.Length);
        Point2 to = new((from.X * cos) - (from.Y * sin), (from.X * sin) + (from.Y * cos));
        pen.Follow(Segment.Arc(pen.At.Xy, centre + to, centre, ccw: true), pen.At.Z, feed);
    }

    /// <summary>Where the tool comes off the wall: at the centre after a finishing turn, else at once.</summary>
    private static Point2 Left(Point2 centre, Point2 outward, double rough, double radius) =>
        radius - rough > 1e-6 ? centre : centre + (outward * (rough - Math.Min(rough, 2 * Leaving)));

    /// <summary>A half circle to a point, counter-clockwise, so that the wall is met and left along its tangent.</summary>
    private static void HalfTo(Pen pen, Point2 to, double feed)
    {
        Point2 from = pen.At.Xy;
        pen.Follow(Segment.Arc(from, to, (from + to) * 0.5, ccw: true), pen.At.Z, feed);
    }
}

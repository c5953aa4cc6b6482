using FixtureGen.Holding;
using FixtureGen.Model;

namespace FixtureGen.Toolpaths;

/// <summary>
/// A round hole bored by a helix, climb (counter-clockwise inside), one flat turn at the floor; with an allowance the wall is
/// finished by one more turn at full depth, reached and left by half circles.
/// </summary>
internal static class Bore
{
    /// <summary>Least and greatest hole for a helix, in tool diameters: below there is no room to turn, above a core stays.</summary>
    public const double Least = 1.2;

    public const double Greatest = 1.95;

    public static Piece Hole(
        string feature,
        Point2 centre,
        double diameter,
        Tool tool,
        CutData data,
        Heights heights,
        double topZ,
        double floorZ,
        double allowance
    )
    {
        double radius = (diameter - tool.Diameter) / 2;
        double rough = Math.Max(radius - allowance, radius / 2);
        return new Piece(
            feature,
            [
                .. Enumerable
                    .Range(0, 4)
                    .Select(k =>
                    {
                        Point2 outward = k switch
                        {
                            0 => new Point2(1, 0),
                            1 => new Point2(0, 1),
                            2 => new Point2(-1, 0),
                            _ => new Point2(0, -1),
                        };
                        return new Way(
                            centre + (outward * rough),
                            centre,
                            pen => Cut(pen, centre, outward, rough, radius, data, heights, topZ, floorZ)
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
        CutData data,
        Heights heights,
        double topZ,
        double floorZ
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
            HalfTo(pen, centre - (outward * radius), data.Feed);
            pen.Turn(centre, ccw: true, floorZ, data.Feed);
        }
        HalfTo(pen, centre, data.Feed);
        pen.RapidZ(heights.Hop);
    }

    /// <summary>A half circle to a point, counter-clockwise, so that the wall is met and left along its tangent.</summary>
    private static void HalfTo(Pen pen, Point2 to, double feed)
    {
        Point2 from = pen.At.Xy;
        pen.Follow(Segment.Arc(from, to, (from + to) * 0.5, ccw: true), pen.At.Z, feed);
    }
}

using System.Collections.Immutable;
using FixtureGen.Cutting;
using FixtureGen.Model;

namespace FixtureGen.Toolpaths.Moves;

/// <summary>
/// The block's face taken down by a rectangular spiral from outside inward, clockwise: the uncut face is on the right, which
/// is climb. The cutter hangs over every edge so far that its round also takes the block's corners wherever the stops let it
/// lie, and comes down beside the block.
/// </summary>
internal static class Skimming
{
    /// <summary>Width of a pass in diameters; up to 0.85 a square corner keeps no island (1 + sin 45 degrees radii).</summary>
    public const double Width = 0.8;

    /// <summary>Beyond the placing tolerance, mm.</summary>
    private const double Over = 0.1;

    /// <summary>Where the tool comes down in front of the block, however that lies.</summary>
    public static double BesideY(Box2 block, double placing, Tool tool) => block.MinY - tool.Radius - placing - 0.5;

    public static Piece Face(
        string feature,
        Box2 block,
        double placing,
        Tool tool,
        CutData data,
        Heights heights,
        double topZ,
        double floorZ
    )
    {
        double first = (tool.Radius / Math.Sqrt(2)) - placing - Over;
        ImmutableArray<Point2> spiral = [.. Spiral(block, first, Width * tool.Diameter)];
        Point2 beside = new(spiral[0].X, BesideY(block, placing, tool));
        return new Piece(
            feature,
            [
                new Way(
                    beside,
                    spiral[^1],
                    pen =>
                    {
                        foreach (double z in Depths(topZ, floorZ, data.StepDown))
                        {
                            if (pen.At.Xy != beside)
                            {
                                pen.RapidZ(heights.Clearance);
                                pen.Rapid(Point3.From(beside, heights.Clearance));
                            }
                            pen.RapidZ(heights.Hop);
                            pen.LineZ(z, data.Feed);
                            foreach (Point2 p in spiral)
                            {
                                pen.Line(Point3.From(p, z), data.Feed);
                            }
                        }
                        pen.RapidZ(heights.Hop);
                    }
                ),
            ]
        );
    }

    /// <summary>
    /// The first pass as deep as the step-down allows in the thickest blank, so that a thinner one is not passed over in the
    /// air; equal passes below it.
    /// </summary>
    private static IEnumerable<double> Depths(double topZ, double floorZ, double stepDown)
    {
        int passes = Passes.Count(topZ - floorZ, stepDown);
        double first = passes == 1 ? floorZ : topZ - stepDown;
        return passes == 1 ? [floorZ] : Passes.Down(first, floorZ, stepDown).Prepend(first);
    }

    private static IEnumerable<Point2> Spiral(Box2 b, double inset, double step)
    {
        (double x0, double y0, double x1, double y1) = (b.MinX + inset, b.MinY + inset, b.MaxX - inset, b.MaxY - inset);
        yield return new Point2(x0, y0);
        while (true)
        {
            yield return new Point2(x0, y1);
            yield return new Point2(x1, y1);
            yield return new Point2(x1, y0);
            if (Math.Min(x1 - x0, y1 - y0) <= 2 * step)
            {
                yield return new Point2(x0, y0);
                break;
            }
            yield return new Point2(x0 + step, y0);
            (x0, y0, x1, y1) = (x0 + step, y0 + step, x1 - step, y1 - step);
            yield return new Point2(x0, y0);
        }
        if (x1 - x0 <= y1 - y0)
        {
            yield return new Point2((x0 + x1) / 2, y0);
            yield return new Point2((x0 + x1) / 2, y1);
        }
        else
        {
            yield return new Point2(x0, (y0 + y1) / 2);
            yield return new Point2(x1, (y0 + y1) / 2);
        }
    }
}

using System.Collections.Immutable;
using FixtureGen.Cutting;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Toolpaths.Moves;

/// <summary>
/// Grooves cut at full width along their centre line. Every pass comes down a ramp along the groove and the whole line is
/// then passed over at that depth, a closed one a diameter farther than once round, so that no step is left in the floor.
/// </summary>
internal static class Groove
{
    /// <summary>Places where a closed groove may be begun.</summary>
    private const int Starts = 12;

    public static Piece Closed(
        string feature,
        Contour line,
        ImmutableArray<Branch> branches,
        Tool tool,
        CutData data,
        Heights heights,
        double topZ,
        double floorZ
    )
    {
        ImmutableArray<Segment> loop = line.Segments;
        double length = loop.Sum(s => s.Length);
        double[] descents = Descents(topZ, floorZ, data);
        double run = descents.Sum() + (descents.Length * length) + Math.Min(tool.Diameter, length);
        return new Piece(
            feature,
            [
                .. Enumerable
                    .Range(0, Starts)
                    .Select(k =>
                    {
                        double from = length * k / Starts;
                        return new Way(
                            PointAt(loop, from),
                            PointAt(loop, (from + run) % length),
                            pen => CutLoop(pen, loop, branches, from, tool, data, heights, topZ, floorZ)
                        );
                    }),
            ]
        );
    }

    public static Piece Open(string feature, Branch tree, CutData data, Heights heights, double topZ, double floorZ)
    {
        Branch turned = tree.Turned();
        int passes = Passes.Down(topZ, floorZ, data.StepDown).Count();
        return new Piece(feature, [Run(tree, turned), Run(turned, tree)]);

        Way Run(Branch first, Branch second) =>
            new(
                first.Run.Start,
                passes % 2 == 1 ? first.Run.End : first.Run.Start,
                pen => CutRun(pen, first, second, data, heights, topZ, floorZ)
            );
    }

    /// <summary>From ground that is already cleared at the run's start: straight down there and out at every depth, back between them.</summary>
    public static Piece FromCleared(
        string feature,
        OpenPath line,
        CutData data,
        Heights heights,
        double topZ,
        double floorZ
    ) =>
        new(
            feature,
            [
                new Way(
                    line.Start,
                    line.End,
                    pen =>
                    {
                        foreach (double z in Passes.Down(topZ, floorZ, data.StepDown))
                        {
                            pen.Follow(Back(pen.At.Xy, line), pen.At.Z, data.Feed);
                            pen.LineZ(z, data.Feed);
                            pen.Follow(line.Segments, z, data.Feed);
                        }
                        pen.RapidZ(heights.Hop);
                    }
                ),
            ]
        );

    private static IEnumerable<Segment> Back(Point2 at, OpenPath line) =>
        at.DistanceTo(line.End) < 1e-9 ? Along.Reversed(line.Segments) : [];

    private static void CutLoop(
        Pen pen,
        ImmutableArray<Segment> loop,
        ImmutableArray<Branch> branches,
        double from,
        Tool tool,
        CutData data,
        Heights heights,
        double topZ,
        double floorZ
    )
    {
        double length = loop.Sum(s => s.Length);
        double at = from;
        pen.Approach(topZ, data);
        foreach (double z in Passes.Down(topZ, floorZ, data.StepDown))
        {
            double ramp = Descent(pen.At.Z - z, data);
            pen.Slope([.. Along.Loop(loop, at, ramp)], z, data.Feed);
            Branch.Round(pen, loop, (at + ramp) % length, branches, z, data.Feed);
            at = (at + ramp) % length;
        }
        pen.Follow(Along.Loop(loop, at, Math.Min(tool.Diameter, length)), floorZ, data.Feed);
        pen.RapidZ(heights.Hop);
    }

    /// <summary>Down half the ramp forth and half back, then along; the next pass from the other end.</summary>
    private static void CutRun(
        Pen pen,
        Branch forth,
        Branch back,
        CutData data,
        Heights heights,
        double topZ,
        double floorZ
    )
    {
        double length = Measure.Length(forth.Run);
        pen.Approach(topZ, data);
        (Branch way, Branch other) = (forth, back);
        foreach (double z in Passes.Down(topZ, floorZ, data.StepDown))
        {
            double half = Descent(pen.At.Z - z, data) / 2;
            int turns = Math.Max(1, (int)Math.Ceiling(half / length));
            double reach = half / turns;
            double from = pen.At.Z;
            for (int k = 0; k < turns; k++)
            {
                pen.Slope(
                    [.. Along.Open(way.Run.Segments, 0, reach)],
                    from + ((z - from) * ((2 * k) + 1) / (2 * turns)),
                    data.Feed
                );
                pen.Slope(
                    [.. Along.Open(other.Run.Segments, length - reach, length)],
                    from + ((z - from) * ((2 * k) + 2) / (2 * turns)),
                    data.Feed
                );
            }
            way.Follow(pen, z, data.Feed);
            (way, other) = (other, way);
        }
        pen.RapidZ(heights.Hop);
    }

    private static double[] Descents(double topZ, double floorZ, CutData data)
    {
        double[] floors = [topZ, .. Passes.Down(topZ, floorZ, data.StepDown)];
        return [.. Enumerable.Range(1, floors.Length - 1).Select(k => Descent(floors[k - 1] - floors[k], data))];
    }

    private static double Descent(double height, CutData data) => height / Math.Tan(data.MaxRampDeg * Math.PI / 180);

    private static Point2 PointAt(ImmutableArray<Segment> loop, double at) => Along.Loop(loop, at, 1e-3).First().Start;
}

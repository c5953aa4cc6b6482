using System.Collections.Immutable;
using FixtureGen.Cutting;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Toolpaths.Moves;

/// <summary>
/// A relief as wide as its cutter: at every depth in from beside the block along the way out, once round its middle with the short runs
/// that branch off to and fro, and past the closing point. No ramp and no lift: between depths the tool goes out and down in the open.
/// </summary>
internal static class Channel
{
    /// <summary>The tool comes down so much farther out than the way out ends, mm.</summary>
    private const double Beside = 0.5;

    public static Piece Cut(
        string feature,
        OnePass lines,
        Tool tool,
        CutData data,
        Heights heights,
        double topZ,
        double floorZ
    )
    {
        ImmutableArray<Segment> loop = lines.Loop.Segments;
        double length = loop.Sum(s => s.Length);
        double at = Along.Nearest(loop, lines.WayOut.Start).At;
        ImmutableArray<Segment> around = [.. Along.Loop(loop, at, length)];
        Segment last = lines.WayOut.Segments[^1];
        Point2 beyond = last.End + (Measure.TangentAt(last, 1) * Beside);
        ImmutableArray<Segment> outward = [.. lines.WayOut.Segments, Segment.Line(last.End, beyond)];
        ImmutableArray<Segment> inward = [.. Along.Reversed(outward)];
        ImmutableArray<Segment> past = [.. Along.Open(around, 0, Overlap.Length(tool.Radius, length))];
        (double At, OpenPath Run)[] branches =
        [
            .. lines.Branches.Select(r => (Along.Nearest(around, r.Start).At, r)).OrderBy(b => b.At),
        ];
        return new Piece(feature, [new Way(beyond, past[^1].End, Run)]);

        void Run(Pen pen)
        {
            bool first = true;
            foreach (double z in Passes.Down(topZ, floorZ, data.StepDown))
            {
                if (!first)
                {
                    pen.Follow(Along.Reversed(past), pen.At.Z, data.Feed);
                    pen.Follow(outward, pen.At.Z, data.Feed);
                }
                first = false;
                pen.LineZ(z, data.Feed);
                pen.Follow(inward, z, data.Feed);
                double done = 0;
                foreach ((double branch, OpenPath run) in branches)
                {
                    pen.Follow(Along.Open(around, done, branch), z, data.Feed);
                    pen.Follow(run.Segments, z, data.Feed);
                    pen.Follow(Along.Reversed(run.Segments), z, data.Feed);
                    done = branch;
                }
                pen.Follow(Along.Open(around, done, length), z, data.Feed);
                pen.Follow(past, z, data.Feed);
            }
            pen.RapidZ(heights.Hop);
        }
    }
}

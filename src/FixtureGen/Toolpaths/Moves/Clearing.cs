using System.Collections.Immutable;
using FixtureGen.Cutting;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Toolpaths.Moves;

/// <summary>
/// A region cleared contour-parallel: rings from the source, each branch from its innermost ring outward, so that only a
/// branch's first ring is a slot. Every ring has the region on its left, which is climb for a clockwise spindle. The tool
/// steps from ring to ring at depth where the straight way keeps its radius from the walls, else it is lifted.
/// </summary>
internal sealed class Clearing
{
    private const double Slack = 1e-3;

    /// <summary>Longest step at depth before lifting is quicker, in diameters.</summary>
    private const double LongestLink = 8;

    private const int Starts = 8;

    /// <summary>
    /// A wall is met at full depth on a slant, so many allowances long: straight into it half the cutter's rim would bite at once.
    /// </summary>
    private const double Slant = 10;

    /// <summary>Radius of a wall that is as good as straight, mm.</summary>
    private const double Straight = 1e4;

    private readonly Region _area;
    private readonly Tool _tool;
    private readonly CutData _data;
    private readonly Heights _heights;
    private readonly ImmutableArray<Ring> _tree;
    private readonly ImmutableArray<Region> _walls;
    private readonly Entry _entry;

    private Clearing(
        Region area,
        Tool tool,
        CutData data,
        Heights heights,
        double allowance,
        Box2? stock,
        Kernel kernel
    )
    {
        (_area, _tool, _data, _heights) = (area, tool, data, heights);
        _walls = kernel.Offset(area, -tool.Radius);
        ImmutableArray<Region> first = allowance > 0 ? kernel.Offset(area, -tool.Radius - allowance) : _walls;
        Allowance = first.IsEmpty ? 0 : allowance;
        _tree = RingTree.Build(
            kernel.Rings([area], tool.Radius + Allowance, data.StepOver),
            tool.Radius - data.StepOver - Slack
        );
        _entry = new Entry(area, tool, data, stock);
    }

    private double Allowance { get; }

    /// <summary>How far the last ring is cut once more past where it closes, mm.</summary>
    private double Beyond { get; init; }

    /// <summary>
    /// Null where the tool does not fit. Floors are the passes, the highest first. With an allowance the walls are finished after all passes, in laps as deep as the block bears. Stock
    /// is the block's outline where the region runs over it: outside, the tool may go straight down. Beyond, mm, is how far the last
    /// ring is cut once more past where it closes.
    /// </summary>
    public static Piece? Clear(
        string feature,
        Region area,
        Tool tool,
        CutData data,
        Heights heights,
        double topZ,
        ImmutableArray<double> floors,
        double allowance,
        double beyond,
        Box2? stock,
        Kernel kernel
    )
    {
        Clearing clearing = new(area, tool, data, heights, allowance, stock, kernel) { Beyond = beyond };
        return clearing._tree.IsEmpty ? null : clearing.Cut(feature, topZ, floors);
    }

    /// <summary>A region of one ring may be begun anywhere along it, which shortens the way from pocket to pocket; any other at one place.</summary>
    private Piece Cut(string feature, double topZ, ImmutableArray<double> floors)
    {
        ImmutableArray<Segment> first = FirstLeaf(_tree[0]).Region.Outer.Segments;
        double length = first.Sum(s => s.Length);
        int starts = IsSingle ? Starts : 1;
        return new Piece(
            feature,
            [
                .. Enumerable
                    .Range(0, starts)
                    .Select(k => Moves(Along.Loop(first, length * k / starts, length).First().Start, topZ, floors))
                    .SelectMany(moves => Piece.From(feature, moves[0].To.Xy, moves).Ways),
            ]
        );
    }

    private bool IsSingle => _tree is [{ Inside.IsEmpty: true, Region.Holes.IsEmpty: true }];

    private ImmutableArray<Move> Moves(Point2 start, double topZ, ImmutableArray<double> floors)
    {
        Pen pen = new(Point3.From(start, _heights.Hop));
        double above = topZ;
        foreach (double z in Turns() ? [floors[^1]] : floors)
        {
            bool down = IsSingle && above < topZ;
            foreach (Ring ring in _tree)
            {
                down = Visit(pen, ring, above, z, down);
            }
            above = z;
        }
        if (Beyond > 0)
        {
            ImmutableArray<Segment> last = _tree[^1].Region.Outer.Segments;
            double at = Along.Nearest(last, pen.At.Xy).At;
            pen.Follow(Along.Loop(last, at, Beyond), pen.At.Z, _data.Feed);
        }
        if (Allowance > 0)
        {
            Finish(pen, [.. Passes.Down(topZ, floors[^1], Lap())]);
        }
        pen.RapidZ(_heights.Hop);
        return pen.Moves;
    }

    /// <summary>True where the whole region is one ring so short that the ramp along it, turn for turn, takes no more than a pass may.</summary>
    private bool Turns() =>
        IsSingle
        && _tree[0].Region is { } only
        && Measure.Length(only.Outer) * Math.Tan(_data.MaxRampDeg * Math.PI / 180) <= _data.StepDown
        && Measure.Length(only.Outer) <= Math.PI * _tool.Diameter;

    private static Ring FirstLeaf(Ring ring) => ring.Inside.IsEmpty ? ring : FirstLeaf(ring.Inside[0]);

    /// <summary>The branch from its leaves outward; true: the tool is left at depth.</summary>
    private bool Visit(Pen pen, Ring ring, double above, double z, bool down)
    {
        List<Ring> inside = [.. ring.Inside];
        while (inside.Count > 0)
        {
            Ring next = inside.MinBy(r => Along.Nearest(r.Region.Outer.Segments, pen.At.Xy).Distance)!;
            inside.Remove(next);
            down = Visit(pen, next, above, z, down: false);
        }
        List<Contour> loops = [.. ring.Region.Contours];
        while (loops.Count > 0)
        {
            Contour next = loops.MinBy(c => Along.Nearest(c.Segments, pen.At.Xy).Distance)!;
            loops.Remove(next);
            Loop(pen, next, above, z, down);
            down = true;
        }
        return down;
    }

    private void Loop(Pen pen, Contour loop, double above, double z, bool down)
    {
        (double at, Point2 point, double distance) = Along.Nearest(loop.Segments, pen.At.Xy);
        double length = loop.Segments.Sum(s => s.Length);
        if (down && pen.At.Z > z + 1e-9 && distance < 1e-6)
        {
            _entry.Descend(pen, loop, at, z);
        }
        else if (down && pen.At.Z <= z + 1e-9 && distance <= LongestLink * _tool.Diameter && Free(pen.At.Xy, point))
        {
            pen.Line(Point3.From(point, z), _data.Feed);
            pen.Follow(Along.Loop(loop.Segments, at, length), z, _data.Feed);
        }
        else
        {
            Point2 entry = _entry.Begin(loop, at);
            bool low = pen.At.Z <= above + 1e-9 && entry.DistanceTo(pen.At.Xy) <= LongestLink * _tool.Diameter;
            if (!low || !Free(pen.At.Xy, entry))
            {
                pen.RapidZ(_heights.Hop);
            }
            _entry.Enter(pen, loop, at, above, z);
        }
    }

    private void Finish(Pen pen, double[] laps)
    {
        List<Contour> walls = [.. _walls.SelectMany(r => r.Contours)];
        while (walls.Count > 0)
        {
            Contour wall = walls.MinBy(c => Along.Nearest(c.Segments, pen.At.Xy).Distance)!;
            walls.Remove(wall);
            (double at, Point2 point, double distance) = Along.Nearest(wall.Segments, pen.At.Xy);
            if (distance > LongestLink * _tool.Diameter || !Free(pen.At.Xy, point))
            {
                pen.RapidZ(_heights.Hop);
                pen.Rapid(Point3.From(point, _heights.Hop));
                pen.LineZ(laps[0], _data.Plunge);
            }
            double length = wall.Segments.Sum(s => s.Length);
            double ahead = Math.Min(Slant * Allowance, length / 8);
            Point2 from = pen.At.Xy;
            Point2 met = Along.Loop(wall.Segments, at + ahead, length).First().Start;
            (at, point) = Free(from, met) ? (at + ahead, met) : (at, point);
            foreach (double z in laps)
            {
                if (laps.Length > 1)
                {
                    pen.Line(Point3.From(from, pen.At.Z), _data.Feed);
                    pen.LineZ(z, _data.Feed);
                }
                pen.Line(Point3.From(point, z), _data.Feed);
                pen.Follow(Along.Loop(wall.Segments, at, length + Math.Min(Allowance, length / 2)), z, _data.Feed);
            }
        }
    }

    /// <summary>Depth of a lap along the walls: their tightest inward curve loads the edge most.</summary>
    private double Lap()
    {
        double tightest = _walls
            .SelectMany(r => r.Contours)
            .SelectMany(c => c.Segments)
            .Where(s => s.IsArc && s.Sweep > 0)
            .Select(s => s.Radius)
            .DefaultIfEmpty(Straight)
            .Min();
        return WallLaps.Depth(_data.StepDown, Math.Max(tightest, Allowance), _tool.Radius, Allowance);
    }

    private bool Free(Point2 from, Point2 to)
    {
        int steps = Math.Max(1, (int)Math.Ceiling(from.DistanceTo(to) / 0.25));
        for (int k = 0; k <= steps; k++)
        {
            Point2 p = from + ((to - from) * ((double)k / steps));
            if (!Inside.Contains(_area, p) || Measure.Distance(p, _area) < _tool.Radius - Slack)
            {
                return false;
            }
        }
        return true;
    }
}

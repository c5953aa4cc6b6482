using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// Scan lines through a parallel, one through every loop of the source and of the result and one each way through the middle:
/// every stretch is in the result just where side and distance say so.
/// </summary>
internal sealed class OffsetScan(Slack slack)
{
    // Where in its range a scan line is laid; odd fractions, so that drawings at round numbers have no corner there.
    private static readonly double[] Fractions = [0.41421356, 0.61803399, 0.30901699, 0.7320508];

    // Loops flatter than this are crossed upright, all others level: the fewer directions, the fewer lines.
    private const double Flat = 0.25;

    private readonly ScanLines _scan = new();
    private readonly LoopBlocks _blocks = new();
    private readonly Stabs _flat = new();
    private readonly Stabs _upright = new();
    private readonly List<(double Low, double High)> _ranges = [];
    private readonly List<(double Low, double High)> _again = [];
    private double[] _levels = [];
    private OffsetSource _source = null!;
    private double _distance;
    private double _moved;

    /// <summary>True where every stretch of every line agrees.</summary>
    /// <param name="moved">The farthest that anything was moved, mm.</param>
    public bool Agrees(OffsetSource from, double at, List<Loop> loops, double moved)
    {
        _source = from;
        _distance = at;
        _moved = moved;
        ChooseLines(loops);
        _blocks.Build(loops, outer: false);
        return Scan(_flat, false) && Scan(_upright, true);
    }

    private void ChooseLines(List<Loop> loops)
    {
        _flat.Clear();
        _upright.Clear();
        Box2 all = _source.Index.Bounds;
        _flat.Add(all.MinY, all.MaxY);
        _upright.Add(all.MinX, all.MaxX);
        for (int k = 0; k + 1 < _source.LoopStarts.Count && _source.LoopStarts.Count > 2; k++)
        {
            Stab(Span(_source.LoopStarts[k], _source.LoopStarts[k + 1]));
        }
        foreach (Loop loop in loops)
        {
            Stab(loop.Box);
        }
    }

    private void Stab(in Box2 span)
    {
        if (span.Height >= Flat * span.Width)
        {
            _flat.Add(span.MinY, span.MaxY);
        }
        else
        {
            _upright.Add(span.MinX, span.MaxX);
        }
    }

    /// <summary>A box that a loop's corners and its arcs' middles reach on all sides.</summary>
    private Box2 Span(int first, int end)
    {
        (double x0, double y0, double x1, double y1) = (
            double.MaxValue,
            double.MaxValue,
            double.MinValue,
            double.MinValue
        );
        for (int i = first; i < end; i++)
        {
            Point2 p = _source.Curves[i].A;
            ref readonly Curve c = ref _source.Curves[i];
            Point2 q = c.IsArc && !c.StaysInOneQuadrant() ? c.Middle : p;
            (x0, y0) = (Math.Min(x0, Math.Min(p.X, q.X)), Math.Min(y0, Math.Min(p.Y, q.Y)));
            (x1, y1) = (Math.Max(x1, Math.Max(p.X, q.X)), Math.Max(y1, Math.Max(p.Y, q.Y)));
        }
        return new(x0, y0, x1, y1);
    }

    private bool Scan(Stabs stabs, bool areUpright)
    {
        stabs.Choose(_ranges);
        if (!EveryLineAgrees(areUpright, inOrder: true))
        {
            return false;
        }
        if (_ranges.Count == 0)
        {
            return true;
        }
        // One line through several loops has little room; each loop's own has more.
        stabs.Each(_ranges);
        // Lines that met a corner each time: nothing was shown there, so nothing is believed.
        return EveryLineAgrees(areUpright, inOrder: false) && _ranges.Count == 0;
    }

    /// <summary>False where a line through some range disagrees; ranges in which nothing could be shown are left over.</summary>
    /// <param name="inOrder">False where ranges lie within each other.</param>
    private bool EveryLineAgrees(bool areUpright, bool inOrder)
    {
        foreach (double fraction in Fractions)
        {
            if (_ranges.Count == 0)
            {
                return true;
            }
            if (!inOrder)
            {
                SortByLevel(fraction);
            }
            LayLines(fraction, areUpright);
            _again.Clear();
            for (int line = 0; line < _ranges.Count; line++)
            {
                bool? agrees = _scan.Closes(line) ? EveryStretchAgrees(line) : null;
                if (agrees is null)
                {
                    _again.Add(_ranges[line]);
                }
                else if (agrees is false)
                {
                    return false;
                }
            }
            _ranges.Clear();
            _ranges.AddRange(_again);
        }
        return true;
    }

    private static double Level((double Low, double High) range, double fraction) =>
        range.Low + (fraction * (range.High - range.Low));

    private void SortByLevel(double fraction) =>
        _ranges.Sort((a, b) => Level(a, fraction).CompareTo(Level(b, fraction)));

    private void LayLines(double fraction, bool areUpright)
    {
        Growing.Reserve(ref _levels, _ranges.Count);
        for (int i = 0; i < _ranges.Count; i++)
        {
            _levels[i] = Level(_ranges[i], fraction);
        }
        _scan.Begin(_levels.AsSpan(0, _ranges.Count), areUpright);
        _source.Index.AddCrossed(_scan);
        _blocks.AddCrossed(_scan, 2);
        _scan.Sort();
    }

    /// <summary>Null where the line passes a corner at which snapping laid two curves over each other.</summary>
    private bool? EveryStretchAgrees(int line)
    {
        if (_source.Reversed && _scan.Crosses(line) && !IsClearBeyond(line))
        {
            return false;
        }
        ScanLines.Walk walk = _scan.Along(line);
        while (walk.MoveNext())
        {
            if (walk.Width > slack.Noise && walk.Winding(2) is not (0 or 1))
            {
                // However thin: a hole round its own outer loop would be taken for another's.
                return walk.Width <= 2 * _moved ? null : false;
            }
            if (walk.Width >= 2 * slack.Slop && !Agrees(walk))
            {
                return false;
            }
        }
        return true;
    }

    /// <summary>What grows reaches as far as the distance, so nothing is nearer just before the line's first crossing and after its last.</summary>
    private bool IsClearBeyond(int line)
    {
        (Point2 first, Point2 last) = _scan.Beyond(line, 2 * slack.Slop);
        return !_source.Index.AnyNearer(first, _distance - slack.Slop)
            && !_source.Index.AnyNearer(last, _distance - slack.Slop);
    }

    private bool Agrees(in ScanLines.Walk walk)
    {
        int turns = _source.Reversed ? -walk.Winding(0) : walk.Winding(0);
        bool far = _source.Reversed ? turns <= 0 : turns > 0;
        return (walk.Winding(2) != 0) == _source.Reversed
            ? !far || IsNearer(walk.Curve, walk.Point) || _source.Index.AnyNearer(walk.Point, _distance + slack.Slop)
            : far && !_source.Index.AnyNearer(walk.Point, _distance - slack.Slop);
    }

    /// <summary>True when a curve of the source is nearer to a point than the distance and its slop: most stretches end at one.</summary>
    private bool IsNearer(int curve, Point2 p) =>
        curve >= 0 && _source.Curves[curve].Distance2(p) < (_distance + slack.Slop) * (_distance + slack.Slop);
}

using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// Proves a combination without looking at how it was numbered and followed. Three things are shown:
/// every curve of the result lies on the curve of A or B that it says it came from, ends and middle, within two grids;
/// the result is as long as the runs that bound it; and scan lines, so laid that one crosses every loop of A and B and one
/// every run of more than a thousandth of a millimetre that bounds the result, find on every stretch that the point is in the
/// result just where the turns of A and B, counted along the line from the loops as they were given, say so. Not shown is
/// what is thinner than five grids.
/// </summary>
internal sealed class CombinationProof(Slack slack)
{
    // In grids: how far a curve may lie off its source, and the narrowest stretch that is asked.
    private const double Off = 2;
    private const double Narrow = 5;

    // What is flatter than this is crossed upright, all else level: the fewer directions, the fewer lines.
    private const double Flat = 0.25;

    // Where in its range a scan line is laid; odd fractions, so that drawings at round numbers have no corner there.
    private static readonly double[] Fractions = [0.41421356, 0.61803399, 0.30901699, 0.7320508];

    private readonly ScanLines _scan = new();
    private readonly LoopBlocks _blocks = new();
    private readonly Stabs _flat = new();
    private readonly Stabs _upright = new();
    private readonly List<(double Low, double High)> _ranges = [];
    private readonly List<(double Low, double High)> _again = [];
    private double[] _levels = [];
    private Overlay _of = null!;

    /// <summary>True when the loops bound what is wanted.</summary>
    public bool Proves(Overlay overlay, Func<int, int, bool> wanted, List<Loop> loops)
    {
        _of = overlay;
        if (!LiesOnSources(overlay.Given, loops) || !IsAsLong(overlay.Length, loops))
        {
            return false;
        }
        ChooseLines();
        _blocks.Build(loops, outer: false);
        return Scan(_flat, false, wanted) && Scan(_upright, true, wanted);
    }

    private bool LiesOnSources(CurveTable given, List<Loop> loops)
    {
        double off = Off * slack.Grid;
        foreach (Loop loop in loops)
        {
            ReadOnlySpan<Segment> segments = loop.Contour.Segments.AsSpan();
            if (loop.Sources.IsDefault || loop.Sources.Length != segments.Length)
            {
                return false;
            }
            for (int i = 0; i < segments.Length; i++)
            {
                ref readonly Curve source = ref given.Items[loop.Sources[i]];
                ref readonly Segment s = ref segments[i];
                Point2 other = source.IsArc ? Curve.From(s).Middle : s.Start;
                if (!LiesOn(source, s.End, off) || !LiesOn(source, other, off))
                {
                    return false;
                }
            }
        }
        return true;
    }

    /// <summary>Of the source its whole line or circle counts: what continues it straight on was joined to it.</summary>
    private static bool LiesOn(in Curve source, Point2 p, double off)
    {
        if (source.IsArc)
        {
            return Math.Abs(p.DistanceTo(source.C) - source.R) <= off;
        }
        Point2 d = source.B - source.A;
        double cross = d.Cross(p - source.A);
        return cross * cross <= off * off * d.Dot(d);
    }

    private bool IsAsLong(double length, List<Loop> loops)
    {
        double sum = 0;
        int curves = 0;
        foreach (Loop loop in loops)
        {
            sum += loop.Sums.Length;
            curves += loop.Contour.Segments.Length;
        }
        return Math.Abs(sum - length) <= (Off * slack.Grid * (1 + curves)) + (Rounding.Sums * length);
    }

    private void ChooseLines()
    {
        _flat.Clear();
        _upright.Clear();
        Runs runs = _of.Runs;
        for (int r = 0; r < runs.Count; r++)
        {
            if (!_of.Bounds(r))
            {
                continue;
            }
            ref readonly Curve c = ref runs.Pieces.Items[runs.Longest(r)];
            if (c.Chord2 >= slack.Scanned * slack.Scanned)
            {
                Stab(Math.Min(c.A.X, c.B.X), Math.Min(c.A.Y, c.B.Y), Math.Max(c.A.X, c.B.X), Math.Max(c.A.Y, c.B.Y));
            }
        }
        foreach (Box2 span in _of.Loader.Spans)
        {
            Stab(span.MinX, span.MinY, span.MaxX, span.MaxY);
        }
    }

    private void Stab(double x0, double y0, double x1, double y1)
    {
        if (y1 - y0 >= Flat * (x1 - x0))
        {
            _flat.Add(y0, y1);
        }
        else
        {
            _upright.Add(x0, x1);
        }
    }

    private bool Scan(Stabs stabs, bool areUpright, Func<int, int, bool> wanted)
    {
        stabs.Choose(_ranges);
        foreach (double fraction in Fractions)
        {
            if (_ranges.Count == 0)
            {
                return true;
            }
            LayLines(fraction, areUpright);
            _again.Clear();
            for (int line = 0; line < _ranges.Count; line++)
            {
                if (!_scan.Closes(line))
                {
                    _again.Add(_ranges[line]);
                }
                else if (!EveryStretchAgrees(line, wanted))
                {
                    return false;
                }
            }
            _ranges.Clear();
            _ranges.AddRange(_again);
        }
        // Lines that met a corner each time: nothing was shown there, so nothing is believed.
        return _ranges.Count == 0;
    }

    private void LayLines(double fraction, bool areUpright)
    {
        Growing.Reserve(ref _levels, _ranges.Count);
        for (int i = 0; i < _ranges.Count; i++)
        {
            _levels[i] = _ranges[i].Low + (fraction * (_ranges[i].High - _ranges[i].Low));
        }
        _scan.Begin(_levels.AsSpan(0, _ranges.Count), areUpright);
        _of.AddCrossed(_scan);
        _blocks.AddCrossed(_scan, 2);
        _scan.Sort();
    }

    private bool EveryStretchAgrees(int line, Func<int, int, bool> wanted)
    {
        ScanLines.Walk walk = _scan.Along(line);
        while (walk.MoveNext())
        {
            bool inside = wanted(walk.Winding(0), walk.Winding(1));
            if (
                walk.Width > Narrow * slack.Grid
                && walk.Winding(2) != (inside ? 1 : 0)
                && IsClear(_of.Given, walk.Point)
            )
            {
                return false;
            }
        }
        return true;
    }

    /// <summary>False where the line runs slantwise through something thinner than is shown.</summary>
    private bool IsClear(CurveTable given, Point2 p)
    {
        double clear = Narrow / 2 * slack.Grid;
        foreach (ref readonly Curve c in given.List.Span)
        {
            if (c.Distance2(p) < clear * clear)
            {
                return false;
            }
        }
        return true;
    }
}

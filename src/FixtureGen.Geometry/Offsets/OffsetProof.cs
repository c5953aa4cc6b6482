using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// Proves a parallel without looking at how it was followed. Shown are: every curve of the result lies, middle and end, at the
/// distance from the source curve that it says it came from; the result is as long as the runs that were kept, and each run
/// longer than a thousandth of a millimetre, kept or not, is rightly so at a second point of it; a source curve whose parallel
/// was dropped before anything was cut has another one too near to it at two points; the area swept is no larger
/// than Steiner's formula allows and no smaller than what the result's own curves sweep; and along scan lines, one through
/// every loop of the source and of the result and one each way through the middle, every stretch is in the result just where
/// side and distance say so. Not shown is what is thinner than four slices.
/// </summary>
internal sealed class OffsetProof(Slack slack)
{
    // Where on a run's longest piece, and in its range a scan line is laid; odd fractions, so that drawings at round numbers
    // have no corner there.
    private const double SecondPoint = 0.7131;

    // Sine of the sweep, below which an arc's chord may pass its centre.
    private const double Slender = Rounding.Slender;

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

    // Twice what the distance test lets through.
    private double Slop => 4 * slack.Slice;

    /// <summary>True when the loops are the source's parallel at <paramref name="at"/> mm.</summary>
    /// <param name="work">What made them.</param>
    public bool Proves(Offsetter work, OffsetSource from, double at, List<Loop> loops)
    {
        _source = from;
        _distance = at;
        return LiesAtDistance(work, loops)
            && IsAsLong(work, loops)
            && IsFar(loops)
            && DropsHold(work)
            && NothingIsMissing(work.Raw)
            && Proves(loops, work.Moved);
    }

    /// <summary>
    /// The same for loops of whose making nothing is known: every curve's distance is asked of the whole source. A lost loop that
    /// no line meets is not noticed by this alone.
    /// </summary>
    /// <param name="moved">The farthest that anything was moved, mm.</param>
    public bool ProvesAlone(OffsetSource from, double at, List<Loop> loops, double moved)
    {
        _source = from;
        _distance = at;
        foreach (Loop loop in loops)
        {
            foreach (ref readonly Segment s in loop.Contour.Segments.AsSpan())
            {
                double d = from.Index.Nearest(Curve.From(s).Probe, at + (2 * Slop), out _);
                if (Math.Abs(d - at) > Slop)
                {
                    return false;
                }
            }
        }
        return Proves(loops, moved);
    }

    private bool Proves(List<Loop> loops, double moved)
    {
        _moved = moved;
        if (!AreaHolds(loops))
        {
            return false;
        }
        ChooseLines(loops);
        _blocks.Build(loops, outer: false);
        return Scan(_flat, false) && Scan(_upright, true);
    }

    private bool LiesAtDistance(Offsetter work, List<Loop> loops)
    {
        foreach (Loop loop in loops)
        {
            ReadOnlySpan<Segment> segments = loop.Contour.Segments.AsSpan();
            if (loop.Sources.IsDefault || loop.Sources.Length != segments.Length)
            {
                return false;
            }
            for (int i = 0; i < segments.Length; i++)
            {
                ref readonly Segment s = ref segments[i];
                ref readonly Curve from = ref _source.Curves[work.SourceOf(loop.Sources[i])];
                if (!(s.IsArc ? IsParallelArc(s, from) : IsParallelLine(s, from)))
                {
                    return false;
                }
            }
        }
        return true;
    }

    /// <summary>
    /// Middle and end of a line at the distance from its source's whole line, or circle where it stands for a flat arc, or from
    /// its source's end where it stands for a flat arc about that; what continues a line straight on was joined to it.
    /// </summary>
    private bool IsParallelLine(in Segment s, in Curve from)
    {
        Point2 end = _source.Reversed ? s.Start : s.End;
        Point2 middle = (s.Start + s.End) * 0.5;
        if (from.IsArc)
        {
            return IsBesideArc(end, from) && IsBesideArc(middle, from);
        }
        Point2 d = from.B - from.A;
        double length = Math.Sqrt(d.Dot(d));
        double low = (_distance - Slop) * length;
        double high = (_distance + Slop) * length;
        double atEnd = Math.Abs(d.Cross(end - from.A));
        double atMiddle = Math.Abs(d.Cross(middle - from.A));
        return ((atEnd >= low && atEnd <= high) || IsBesideEnd(end, from))
            && ((atMiddle >= low && atMiddle <= high) || IsBesideEnd(middle, from));
    }

    private bool IsBesideArc(Point2 p, in Curve from) =>
        Math.Abs(Math.Abs(p.DistanceTo(from.C) - from.R) - _distance) <= Slop || IsBesideEnd(p, from);

    private bool IsBesideEnd(Point2 p, in Curve from) => Math.Abs(p.DistanceTo(from.B) - _distance) <= Slop;

    /// <summary>Both ends of an arc at the distance from its centre, which is its source's end, or its source's centre.</summary>
    private bool IsParallelArc(in Segment s, in Curve from) =>
        (IsSame(s.Centre, from.B) && HasRadius(s, _distance))
        || (from.IsArc && IsSame(s.Centre, from.C) && HasRadius(s, Math.Abs(from.R - (from.Turn * _distance))));

    private bool HasRadius(in Segment s, double radius)
    {
        double low = Math.Max(0, radius - Slop);
        double high = radius + Slop;
        return IsWithin(s.Start, s.Centre, low, high) && IsWithin(s.End, s.Centre, low, high);
    }

    /// <summary>Arcs that continue each other are joined to one, whose centre is that of either: they differ in the last digits.</summary>
    private bool IsSame(Point2 a, Point2 b)
    {
        Point2 d = a - b;
        return d.Dot(d) <= Slop * Slop;
    }

    private static bool IsWithin(Point2 p, Point2 centre, double low, double high)
    {
        Point2 d = p - centre;
        double away = d.Dot(d);
        return away >= low * low && away <= high * high;
    }

    private bool IsAsLong(Offsetter work, List<Loop> loops)
    {
        double sum = 0;
        int curves = 0;
        foreach (Loop loop in loops)
        {
            sum += loop.Sums.Length;
            curves += loop.Contour.Segments.Length;
        }
        return Math.Abs(sum - work.Length) <= (2 * slack.Grid * (1 + curves)) + (Rounding.Sums * work.Length);
    }

    /// <summary>No source is nearer to any segment of the result, at a point other than the one by which its run was kept.</summary>
    private bool IsFar(List<Loop> loops)
    {
        double reach = _distance - Slop;
        foreach (Loop loop in loops)
        {
            foreach (ref readonly Segment s in loop.Contour.Segments.AsSpan())
            {
                Point2 chord = s.End - s.Start;
                if (
                    chord.Dot(chord) >= slack.Scanned * slack.Scanned
                    && _source.Index.AnyNearer(s.IsArc ? Second(Curve.From(s)) : s.Start + (chord * SecondPoint), reach)
                )
                {
                    return false;
                }
            }
        }
        return true;
    }

    /// <summary>A run is dropped where a source is nearer, at any of its points.</summary>
    private bool DropsHold(Offsetter work)
    {
        Runs runs = work.Runs;
        for (int r = 0; r < runs.Count && !work.WrongSide; r++)
        {
            if (work.Keeps(r))
            {
                continue;
            }
            ref readonly Curve c = ref runs.Pieces.Items[runs.Longest(r)];
            if (c.Chord2 >= slack.Scanned * slack.Scanned && !_source.Index.AnyNearer(Second(c), _distance))
            {
                return false;
            }
        }
        return true;
    }

    /// <summary>
    /// A second point of a curve: on an arc of less than half a turn, from its centre through one of its chord, on a longer one
    /// at three quarters.
    /// </summary>
    private static Point2 Second(in Curve c)
    {
        if (c.Turn == 0)
        {
            return c.PointAt(SecondPoint);
        }
        if (c.Turn * (c.A - c.C).Cross(c.B - c.C) <= Slender * c.R * c.R)
        {
            Curve half = c;
            half.A = c.Middle;
            return half.Middle;
        }
        Point2 ray = c.A + ((c.B - c.A) * SecondPoint) - c.C;
        return c.C + (ray * (c.R / ray.Length));
    }

    /// <summary>
    /// Where a source curve's parallel, or the arc about a corner that opens, was dropped before anything was cut, others are
    /// nearer to it at two of its points.
    /// </summary>
    private bool NothingIsMissing(RawCurves raw)
    {
        double reach = _distance - LoopLoader.RoundingOf(_source.Greatest + _distance);
        for (int k = 0; k + 1 < _source.LoopStarts.Count; k++)
        {
            int first = _source.LoopStarts[k];
            int end = _source.LoopStarts[k + 1];
            for (int i = first; i < end; i++)
            {
                if (
                    (!raw.Shows(i) && !IsBuried(_source.Curves[i], reach))
                    || (!raw.ShowsCorner(i) && !IsCornerBuried(i, i + 1 == end ? first : i + 1, reach))
                )
                {
                    return false;
                }
            }
        }
        return true;
    }

    private bool IsBuried(in Curve c, double reach)
    {
        bool hasParallel = c.Turn == 0 || c.R - (c.Turn * _distance) > slack.Scanned;
        return !hasParallel
            || c.Chord2 < slack.Scanned * slack.Scanned
            || (IsTooNear(c, SecondPoint, reach) && IsTooNear(c, 1 - SecondPoint, reach));
    }

    /// <summary>The arc about the corner between two curves is shorter than is asked of, not there, or buried.</summary>
    private bool IsCornerBuried(int before, int after, double reach)
    {
        Point2 from = _source.EndTangents[before].Left;
        Point2 to = _source.StartTangents[after].Left;
        Point2 across = to - from;
        bool opens =
            from.Dot(to) < RawOffset.UTurn
                ? Corners.TurnsBackToTheRight(_source.Curves[before], _source.Curves[after], slack)
                : from.Cross(to) < 0;
        if (!opens || across.Length * _distance < slack.Scanned)
        {
            return true;
        }
        Point2 corner = _source.Curves[before].B;
        Curve arc = Curve.Arc(corner + (from * _distance), corner + (to * _distance), corner, _distance, -1);
        return _source.Index.AnyNearer(Second(arc), reach) && _source.Index.AnyNearer(arc.Probe, reach);
    }

    private bool IsTooNear(in Curve c, double along, double reach)
    {
        Point2 p = c.PointAt(along);
        return _source.Index.AnyNearer(p + (c.TangentAt(p).Left * _distance), reach);
    }

    private bool AreaHolds(List<Loop> loops)
    {
        LoopSums sums = default;
        double unsure = 0;
        foreach (Loop loop in loops)
        {
            sums += _source.Reversed ? loop.Sums.Reversed : loop.Sums;
            unsure += Unsure(loop);
        }
        double band = _source.Sums.Area - sums.Area;
        double slop = Slop * (1 + _source.Sums.Length + sums.Length);
        double swept = (sums.Length * _distance) + (sums.Sweeps * _distance * _distance / 2);
        int count = _source.LoopStarts.Count - 1;
        double most = (_source.Sums.Length * _distance) + (count * Math.PI * _distance * _distance);
        if (loops.Count == 0 || band > most + slop)
        {
            return band <= most + slop;
        }
        double least = swept - slop - (unsure * _distance * _distance / 2);
        return band >= least || band >= least - (loops.Sum(Blunt) * _distance * _distance / 2);
    }

    /// <summary>
    /// The turns at a loop's corners that stand for arcs, radians: a mitre, or a chord within the snapping distance of its arc.
    /// The strips along both sides of such a corner overlap, which no sweep takes off.
    /// </summary>
    private double Blunt(Loop loop)
    {
        ReadOnlySpan<Segment> segments = loop.Contour.Segments.AsSpan();
        double sum = 0;
        Point2 before = Curve.From(segments[^1]).EndTangent;
        foreach (ref readonly Segment s in segments)
        {
            Curve c = Curve.From(s);
            Point2 after = c.StartTangent;
            double turn = _source.Reversed ? before.Cross(after) : after.Cross(before);
            if (turn > 0 && before.Dot(after) > 0 && _distance * turn * turn <= 8 * Slop)
            {
                sum += turn;
            }
            before = c.EndTangent;
        }
        return sum;
    }

    /// <summary>How much the sweeps of a loop's arcs may be off where ends moved by a grid: nothing but for tiny radii.</summary>
    private double Unsure(in Loop loop)
    {
        double sum = 0;
        foreach (ref readonly Segment s in loop.Contour.Segments.AsSpan())
        {
            if (s.IsArc)
            {
                double r = s.Start.DistanceTo(s.Centre);
                sum += r > slack.TinyRadius ? 0 : Math.Min(2 * Math.PI, 4 * slack.Grid / r);
            }
        }
        return sum;
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
            if (walk.Width >= 2 * Slop && !Agrees(walk))
            {
                return false;
            }
        }
        return true;
    }

    /// <summary>What grows reaches as far as the distance, so nothing is nearer just before the line's first crossing and after its last.</summary>
    private bool IsClearBeyond(int line)
    {
        (Point2 first, Point2 last) = _scan.Beyond(line, 2 * Slop);
        return !_source.Index.AnyNearer(first, _distance - Slop) && !_source.Index.AnyNearer(last, _distance - Slop);
    }

    private bool Agrees(in ScanLines.Walk walk)
    {
        int turns = _source.Reversed ? -walk.Winding(0) : walk.Winding(0);
        bool far = _source.Reversed ? turns <= 0 : turns > 0;
        return (walk.Winding(2) != 0) == _source.Reversed
            ? !far || IsNearer(walk.Curve, walk.Point) || _source.Index.AnyNearer(walk.Point, _distance + Slop)
            : far && !_source.Index.AnyNearer(walk.Point, _distance - Slop);
    }

    /// <summary>True when a curve of the source is nearer to a point than the distance and its slop: most stretches end at one.</summary>
    private bool IsNearer(int curve, Point2 p) =>
        curve >= 0 && _source.Curves[curve].Distance2(p) < (_distance + Slop) * (_distance + Slop);
}

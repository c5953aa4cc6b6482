using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// Whether each run of a parallel was rightly kept or dropped, and whether what was left out before anything was cut is too
/// near a source. Nothing shorter than a thousandth of a millimetre is asked.
/// </summary>
internal sealed class KeptAndDropped(Slack slack)
{
    private OffsetSource _source = null!;
    private double _distance;

    /// <summary>Before anything is asked.</summary>
    /// <param name="from">What the parallel is of.</param>
    /// <param name="at">mm.</param>
    public void Begin(OffsetSource from, double at) => (_source, _distance) = (from, at);

    /// <summary>True where nothing was kept or left out wrongly.</summary>
    public bool AreRight(Offsetter work) => RunsAreRight(work) && StubsAreTooNear(work) && NothingIsMissing(work.Raw);

    /// <summary>
    /// A run is kept where no source is nearer and dropped where one is, at any of its points. It was asked at one; it is
    /// asked next to both its ends, where it ceases to be right if it was not cut where it should have been, and where it was
    /// dropped at a second one between.
    /// </summary>
    private bool RunsAreRight(Offsetter work)
    {
        Runs runs = work.Runs;
        double reach = Reach;
        for (int r = 0; r < runs.Count; r++)
        {
            ref readonly Curve c = ref runs.Pieces.Items[runs.Longest(r)];
            if (c.Chord2 < slack.Scanned * slack.Scanned)
            {
                continue;
            }
            bool right = work.Keeps(r)
                ? IsFarBeside(runs, r, _distance - slack.Slop)
                : work.WrongSide
                    || (
                        IsTooNearBeside(work, 2 * r, reach)
                        && IsTooNearBeside(work, (2 * r) + 1, reach)
                        && _source.Index.AnyNearer(SecondPoints.On(c), _distance)
                    );
            if (!right)
            {
                return false;
            }
        }
        return true;
    }

    /// <summary>True where no source is nearer than the reach to the points next to both ends of a run.</summary>
    private bool IsFarBeside(Runs runs, int run, double reach)
    {
        Curve first = runs.Leaving(2 * run);
        Curve last = runs.Leaving((2 * run) + 1);
        return (IsShort(first) || !_source.Index.AnyNearer(Beside(first), reach))
            && (IsShort(last) || !_source.Index.AnyNearer(Beside(last), reach));
    }

    /// <summary>True where a source is nearer than the reach to the point next to an end of a run.</summary>
    private bool IsTooNearBeside(Offsetter work, int end, double reach)
    {
        Runs runs = work.Runs;
        Curve c = runs.Leaving(end);
        if (IsShort(c))
        {
            return true;
        }
        Point2 p = Beside(c);
        // Most likely it is what another curve through the same node is a parallel of.
        foreach (int other in runs.EndsAt(runs.NodeAt(end)))
        {
            int run = other >> 1;
            int piece = (other & 1) == 0 ? runs.First(run) : runs.First(run + 1) - 1;
            if (_source.Curves[work.SourceOf(runs.Pieces.Origins[piece])].Distance2(p) < reach * reach)
            {
                return true;
            }
        }
        return _source.Index.AnyNearer(p, reach);
    }

    private Point2 Beside(in Curve c) => SecondPoints.Beside(c, slack.Scanned);

    private bool IsShort(in Curve c) => c.Chord2 < 4 * slack.Scanned * slack.Scanned;

    /// <summary>A run that was kept and led nowhere was only kept for the slack of the distance test: a source is nearer to it.</summary>
    private bool StubsAreTooNear(Offsetter work)
    {
        double reach = Reach;
        foreach (int run in work.Stubs)
        {
            ref readonly Curve c = ref work.Runs.Pieces.Items[work.Runs.Longest(run)];
            if (c.Chord2 >= slack.Scanned * slack.Scanned && !_source.Index.AnyNearer(c.Probe, reach))
            {
                return false;
            }
        }
        return true;
    }

    /// <summary>The distance but for what rounding may make of it, mm.</summary>
    private double Reach => _distance - LoopLoader.RoundingOf(_source.Greatest + _distance);

    /// <summary>
    /// Where a source curve's parallel, or the arc about a corner that opens, was dropped before anything was cut, others are
    /// nearer to it at two of its points.
    /// </summary>
    private bool NothingIsMissing(RawCurves raw)
    {
        double reach = Reach;
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
            || (IsTooNear(c, SecondPoints.Fraction, reach) && IsTooNear(c, 1 - SecondPoints.Fraction, reach));
    }

    /// <summary>The arc about the corner between two curves is shorter than is asked of, not there, or buried.</summary>
    private bool IsCornerBuried(int before, int after, double reach)
    {
        Point2 from = _source.EndTangents[before].Left;
        Point2 to = _source.StartTangents[after].Left;
        bool opens =
            from.Dot(to) < RawOffset.UTurn
                ? Corners.TurnsBackToTheRight(_source.Curves[before], _source.Curves[after], slack)
                : from.Cross(to) < 0;
        if (!opens || (to - from).Length * _distance < slack.Scanned)
        {
            return true;
        }
        Point2 corner = _source.Curves[before].B;
        Curve arc = Curve.Arc(corner + (from * _distance), corner + (to * _distance), corner, _distance, -1);
        return _source.Index.AnyNearer(SecondPoints.On(arc), reach) && _source.Index.AnyNearer(arc.Probe, reach);
    }

    private bool IsTooNear(in Curve c, double along, double reach)
    {
        Point2 p = c.PointAt(along);
        return _source.Index.AnyNearer(p + (c.TangentAt(p).Left * _distance), reach);
    }
}

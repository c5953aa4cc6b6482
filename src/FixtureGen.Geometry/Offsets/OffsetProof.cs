namespace FixtureGen.Geometry;

/// <summary>
/// Proves a parallel without looking at how it was followed. Shown are: every curve of the result lies, middle and end, at the
/// distance from the source curve that it says it came from, and no source is nearer to a second point of any segment, or
/// stretch of short ones, longer than half the distance (<see cref="ParallelCurves"/>); the result is as long as the runs that were kept; each
/// run longer than a thousandth of a millimetre is rightly kept or dropped next to both its ends, a dropped one at two points between as well; source
/// curves and arcs about corners that were dropped before anything was cut are too near a source at two points, kept runs
/// that led nowhere at one (<see cref="KeptAndDropped"/>); the area swept is no larger than Steiner's formula allows and no smaller than what the result's own curves sweep
/// (<see cref="SweptArea"/>); and along scan lines, one through every loop of the source and of the result and one each way
/// through the middle, every stretch is in the result just where side and distance say so (<see cref="OffsetScan"/>). Not
/// shown is what is thinner than four slices or bounded by runs of at most a thousandth of a millimetre.
/// </summary>
internal sealed class OffsetProof(Slack slack)
{
    private readonly ParallelCurves _curves = new(slack);
    private readonly KeptAndDropped _runs = new(slack);
    private readonly SweptArea _area = new(slack);
    private readonly OffsetScan _scan = new(slack);

    /// <summary>True when the loops are the source's parallel at <paramref name="at"/> mm.</summary>
    /// <param name="work">What made them.</param>
    public bool Proves(Offsetter work, OffsetSource from, double at, List<Loop> loops)
    {
        Begin(from, at);
        return _curves.LieAtDistance(work, loops)
            && IsAsLong(work, loops)
            && _curves.AreFar(loops)
            && _runs.AreRight(work)
            && _area.IsPossible(loops)
            && _scan.Agrees(from, at, loops, work.Moved);
    }

    /// <summary>
    /// The same for loops of whose making nothing is known: every curve's distance is asked of the whole source. A lost loop that
    /// no line meets is not noticed by this alone.
    /// </summary>
    /// <param name="moved">The farthest that anything was moved, mm.</param>
    public bool ProvesAlone(OffsetSource from, double at, List<Loop> loops, double moved)
    {
        Begin(from, at);
        return _curves.AreNearest(loops) && _area.IsPossible(loops) && _scan.Agrees(from, at, loops, moved);
    }

    private void Begin(OffsetSource from, double at)
    {
        _curves.Begin(from, at);
        _runs.Begin(from, at);
        _area.Begin(from, at);
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
}

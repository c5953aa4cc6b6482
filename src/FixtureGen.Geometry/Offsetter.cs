using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// The exact parallel of closed loops: raw curves, cut where they cross, kept where no source is nearer than the distance,
/// stitched into loops. Scratch memory is kept from call to call.
/// </summary>
internal sealed class Offsetter(Slack slack)
{
    private readonly RawOffset rawOffset = new(slack);
    private readonly RawCurves raw = new();
    private readonly Slices slices = new(slack);
    private readonly Stitcher stitcher = new(slack);
    private readonly List<int> kept = [];

    /// <summary>True when every piece of the last result closed.</summary>
    public bool Closed => stitcher.Closed;

    /// <summary>
    /// Loops at <paramref name="distance"/> mm (&gt; 0) to the left of the source. With <paramref name="sideTest"/> pieces on
    /// the wrong side of the source fall out too; only sources that touch or overlap themselves need it.
    /// </summary>
    public List<Loop> Run(OffsetSource source, double distance, bool sideTest)
    {
        rawOffset.Build(source, distance, raw);
        slices.Build(raw);
        kept.Clear();
        for (int r = 0; r < slices.RunCount; r++)
        {
            if (Keeps(source, distance, sideTest, r))
            {
                kept.Add(r);
            }
        }
        return stitcher.Stitch(slices, kept, source.Reversed);
    }

    private bool Keeps(OffsetSource source, double distance, bool sideTest, int run)
    {
        ReadOnlySpan<Curve> pieces = slices.Run(run);
        ref readonly Curve longest = ref Slices.Longest(pieces);
        if (pieces.Length == 1 && longest.Chord2 < slack.Near * slack.Near && longest.Length < 2 * slack.Near)
        {
            return false;
        }
        Point2 probe = longest.Probe;
        return !source.Index.AnyNearer(probe, distance - slack.Slice) && (!sideTest || OnMaterialsSide(source, probe));
    }

    /// <summary>Shrinking stays inside. Growing stays outside, where reversed loops wind zero times or more.</summary>
    private static bool OnMaterialsSide(OffsetSource source, Point2 p)
    {
        int winding = source.Index.Winding(p);
        return source.Reversed ? winding >= 0 : winding > 0;
    }
}

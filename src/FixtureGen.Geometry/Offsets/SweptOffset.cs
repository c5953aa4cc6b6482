using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// The parallel by its definition, as a second way to it: everything that a disc covers on its way along every curve of the
/// source is united with the material, or taken from it. Its curves are the same exact parallels.
/// </summary>
internal sealed class SweptOffset(Slack slack)
{
    private readonly Overlay _overlay = new(slack);
    private readonly CombinationProof _proof = new(slack);
    private Func<int, int, bool> _wanted = Grown;

    /// <summary>Asked again and again whether to go on.</summary>
    public CancellationToken Cancel
    {
        get => _overlay.Cancel;
        set => _overlay.Cancel = value;
    }

    /// <summary>The most that a point or curve of the last work was moved by snapping or leaving out short edges, mm.</summary>
    public double Moved => _overlay.Moved;

    /// <summary>The parallel at <paramref name="distance"/> mm to the source's left; null where no plane graph came about.</summary>
    /// <param name="band">True for the swept band alone: there is no material.</param>
    public List<Loop>? Run(OffsetSource source, double distance, bool band, double widening)
    {
        bool grow = source.Reversed;
        _overlay.Begin();
        for (int k = 0; k + 1 < source.LoopStarts.Count && !band; k++)
        {
            ReadOnlySpan<Curve> loop = source.Curves.AsSpan(source.LoopStarts[k]..source.LoopStarts[k + 1]);
            _overlay.Loader.Add(ToSegments(loop, grow));
        }
        _overlay.EndFirstSet();
        for (int i = 0; i < source.Count; i++)
        {
            AddSwept(source.Curves[i], distance);
        }
        _wanted = grow ? Grown : Shrunk;
        return _overlay.Work(_wanted, widening);
    }

    /// <summary>True when the loops are the combination that the last work was to make, whole: none of its bounds is missing.</summary>
    public bool Proves(List<Loop> loops) => _proof.Proves(_overlay, _wanted, loops);

    private static bool Grown(int material, int swept) => material > 0 || swept > 0;

    private static bool Shrunk(int material, int swept) => material > 0 && swept <= 0;

    private static Segment[] ToSegments(ReadOnlySpan<Curve> loop, bool reversed)
    {
        var segments = new Segment[loop.Length];
        for (int i = 0; i < loop.Length; i++)
        {
            segments[i] = reversed ? loop[loop.Length - 1 - i].Reversed.ToSegment() : loop[i].ToSegment();
        }
        return segments;
    }

    /// <summary>A disc about the curve's end, and the strip along it without its ends.</summary>
    private void AddSwept(in Curve c, double d)
    {
        AddDisc(c.B, d);
        if (c.Turn == 0)
        {
            Point2 side = c.StartTangent.Left * d;
            _overlay.Loader.Add([
                Segment.Line(c.A - side, c.B - side),
                Segment.Line(c.B - side, c.B + side),
                Segment.Line(c.B + side, c.A + side),
                Segment.Line(c.A + side, c.A - side),
            ]);
            return;
        }
        Curve ccw = c.Turn > 0 ? c : c.Reversed;
        Point2 from = (ccw.A - ccw.C) * (1 / ccw.A.DistanceTo(ccw.C));
        Point2 to = (ccw.B - ccw.C) * (1 / ccw.B.DistanceTo(ccw.C));
        double outer = ccw.R + d;
        double inner = ccw.R - d;
        Segment outside = Segment.Arc(ccw.C + (from * outer), ccw.C + (to * outer), ccw.C, ccw: true);
        if (inner < slack.Grid)
        {
            // The disc never leaves the centre.
            _overlay.Loader.Add([Segment.Line(ccw.C, outside.Start), outside, Segment.Line(outside.End, ccw.C)]);
            return;
        }
        Segment inside = Segment.Arc(ccw.C + (to * inner), ccw.C + (from * inner), ccw.C, ccw: false);
        _overlay.Loader.Add([
            outside,
            Segment.Line(outside.End, inside.Start),
            inside,
            Segment.Line(inside.End, outside.Start),
        ]);
    }

    private void AddDisc(Point2 centre, double radius) =>
        _overlay.Loader.Add(Contours.Circle(centre, radius).Segments.AsSpan());
}

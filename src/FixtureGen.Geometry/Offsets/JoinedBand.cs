using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// The band to the left of chains of curves, put together from a strip along each curve, a join at each corner that opens to
/// the left, and a cap at each end: loops for an overlay, which unites them.
/// </summary>
internal sealed class JoinedBand(LoopLoader loader, double grid)
{
    // Sine below which curves go on without a corner.
    private const double Smooth = Rounding.Angle;

    /// <summary>Adds the band of a chain.</summary>
    /// <param name="width">mm, above 0.</param>
    /// <param name="limit">Greatest distance of a mitre's point from the corner, in widths.</param>
    public void Add(ReadOnlySpan<Curve> chain, bool closed, double width, CornerJoin join, double limit)
    {
        for (int i = 0; i < chain.Length; i++)
        {
            AddStrip(chain[i], width);
            if (i + 1 < chain.Length || closed)
            {
                AddJoin(chain[i], chain[(i + 1) % chain.Length], width, join, limit);
            }
        }
    }

    /// <summary>Closes both sides of a path's end, towards which <paramref name="heading"/> runs.</summary>
    public void AddCap(Point2 end, Point2 heading, double width, PathCap cap)
    {
        if (cap == PathCap.Round)
        {
            loader.Add(Contours.Circle(end, width).Segments.AsSpan());
        }
        else if (cap == PathCap.Square)
        {
            Point2 side = heading.Left * width;
            Point2 on = heading * width;
            AddPolygon([end - side, end - side + on, end + side + on, end + side]);
        }
    }

    private void AddStrip(in Curve c, double width)
    {
        if (c.Turn == 0)
        {
            Point2 side = c.StartTangent.Left * width;
            AddPolygon([c.A, c.B, c.B + side, c.A + side]);
            return;
        }
        Curve ccw = c.Turn > 0 ? c : c.Reversed;
        Point2 from = (ccw.A - ccw.C) * (1 / ccw.A.DistanceTo(ccw.C));
        Point2 to = (ccw.B - ccw.C) * (1 / ccw.B.DistanceTo(ccw.C));
        double outer = c.Turn > 0 ? ccw.R : ccw.R + width;
        double inner = c.Turn > 0 ? ccw.R - width : ccw.R;
        Segment outside =
            c.Turn > 0
                ? Segment.Arc(ccw.A, ccw.B, ccw.C, ccw: true)
                : Segment.Arc(ccw.C + (from * outer), ccw.C + (to * outer), ccw.C, ccw: true);
        if (inner < grid)
        {
            loader.Add([Segment.Line(ccw.C, outside.Start), outside, Segment.Line(outside.End, ccw.C)]);
            return;
        }
        Segment inside =
            c.Turn > 0
                ? Segment.Arc(ccw.C + (to * inner), ccw.C + (from * inner), ccw.C, ccw: false)
                : Segment.Arc(ccw.B, ccw.A, ccw.C, ccw: false);
        loader.Add([outside, Segment.Line(outside.End, inside.Start), inside, Segment.Line(inside.End, outside.Start)]);
    }

    private void AddJoin(in Curve before, in Curve after, double width, CornerJoin join, double limit)
    {
        Point2 t = before.EndTangent;
        Point2 u = after.StartTangent;
        double cross = t.Cross(u);
        bool back = t.Dot(u) < 0 && Math.Abs(cross) < Smooth;
        if (!back && cross >= -Smooth)
        {
            return;
        }
        Point2 corner = before.B;
        Point2 first = corner + (t.Left * width);
        Point2 second = corner + (u.Left * width);
        if (join == CornerJoin.Round)
        {
            Segment round = Segment.Arc(second, first, corner, ccw: true);
            loader.Add([Segment.Line(corner, second), round, Segment.Line(first, corner)]);
            return;
        }
        Point2 sum = t.Left + u.Left;
        Point2 middle = back ? t : sum * (1 / sum.Length);
        double cosine = middle.Dot(t.Left);
        if (join == CornerJoin.Mitre && cosine * limit >= 1)
        {
            AddPolygon([corner, second, corner + (middle * (width / cosine)), first]);
            return;
        }
        double on = back ? width : width * (1 - cosine) / middle.Dot(t);
        AddPolygon([corner, second, second - (u * on), first + (t * on), first]);
    }

    private void AddPolygon(ImmutableArray<Point2> points) =>
        loader.Add(Contours.Ccw(Contours.FromPoints(points)).Segments.AsSpan());
}

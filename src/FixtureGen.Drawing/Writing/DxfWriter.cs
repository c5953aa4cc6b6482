using System.Collections.Immutable;
using System.Text;
using FixtureGen.Drawing.Reading;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Drawing.Writing;

/// <summary>
/// Writes a DXF 2000 (AC1015) text drawing: pure ASCII, other letters as \U+nnnn, lengths to a ten-millionth of a mm
/// (DXF Reference, release 2000 sections and tables). Same sheet, same bytes.
/// </summary>
public static class DxfWriter
{
    /// <summary>The drawing's bytes. Throws <see cref="ArgumentException"/> for a sheet that no program may ask for: an item on a layer that is not listed, a name the format forbids, a number that is not finite.</summary>
    public static byte[] Write(DxfSheet sheet)
    {
        var groups = new GroupWriter(1 / DxfUnits.Millimetres(sheet.Unit), DxfUnits.Decimals(sheet.Unit));
        HashSet<string> layers = [.. sheet.Layers.Select(l => l.Name), "0"];
        foreach (DxfItem item in sheet.Items)
        {
            if (!layers.Contains(item.Layer))
            {
                throw new ArgumentException($"layer '{item.Layer}' is not listed", nameof(sheet));
            }
        }
        DxfSkeleton.Before(groups, sheet);
        foreach (DxfItem item in sheet.Items)
        {
            Item(groups, item);
        }
        DxfSkeleton.After(groups);
        return Encoding.ASCII.GetBytes(groups.ToString());
    }

    private static void Item(GroupWriter g, DxfItem item)
    {
        switch (item)
        {
            case DxfLoop loop:
                Polyline(g, item.Layer, loop.Contour.Segments, true);
                break;
            case DxfPath path:
                Polyline(g, item.Layer, path.Path.Segments, false);
                break;
            case DxfSegments segments:
                foreach (Segment s in segments.Segments)
                {
                    WriteSegment(g, item.Layer, s);
                }
                break;
            case DxfCircle circle:
                g.Entity("CIRCLE", item.Layer, "AcDbCircle").Point(10, circle.Centre).Length(40, circle.Radius);
                break;
            case DxfPoint point:
                g.Entity("POINT", item.Layer, "AcDbPoint").Point(10, point.At);
                break;
            case DxfEllipse e:
                g.Entity("ELLIPSE", item.Layer, "AcDbEllipse").Point(10, e.Centre).Point(11, e.MajorAxis);
                g.Real(210, 0).Real(220, 0).Real(230, 1).Real(40, e.Ratio);
                g.Real(41, e.FromParameter).Real(42, e.ToParameter);
                break;
            case DxfSpline spline:
                Spline(g, spline);
                break;
            case DxfText text:
                g.Entity("TEXT", item.Layer, "AcDbText").Point(10, text.At).Length(40, text.Height);
                g.Text(1, text.Text).Real(50, text.AngleDeg).Text(7, "Standard").Text(100, "AcDbText");
                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(item));
        }
    }

    private static void WriteSegment(GroupWriter g, string layer, Segment s)
    {
        if (!s.IsArc)
        {
            g.Entity("LINE", layer, "AcDbLine").Point(10, s.Start).Point(11, s.End);
            return;
        }
        // an ARC always runs counter-clockwise
        Segment ccw = s.IsCcw ? s : s.Reversed;
        g.Entity("ARC", layer, "AcDbCircle").Point(10, s.Centre).Length(40, s.Radius).Text(100, "AcDbArc");
        g.Real(50, Angle(ccw.Start - s.Centre)).Real(51, Angle(ccw.End - s.Centre));
    }

    private static void Polyline(GroupWriter g, string layer, ImmutableArray<Segment> segments, bool closed)
    {
        int count = segments.Length + (closed ? 0 : 1);
        g.Entity("LWPOLYLINE", layer, "AcDbPolyline").Integer(90, count).Integer(70, closed ? 1 : 0).Real(43, 0);
        foreach (Segment s in segments)
        {
            g.Flat(s.Start);
            if (s.IsArc)
            {
                g.Real(42, Bulges.FromSegment(s));
            }
        }
        if (!closed)
        {
            g.Flat(segments[^1].End);
        }
    }

    private static void Spline(GroupWriter g, DxfSpline spline)
    {
        g.Entity("SPLINE", spline.Layer, "AcDbSpline").Real(210, 0).Real(220, 0).Real(230, 1);
        g.Integer(70, 8).Integer(71, spline.Degree).Integer(72, spline.Knots.Length);
        g.Integer(73, spline.Points.Length).Integer(74, 0);
        foreach (double knot in spline.Knots)
        {
            g.Real(40, knot);
        }
        foreach (Point2 p in spline.Points)
        {
            g.Point(10, p);
        }
    }

    private static double Angle(Point2 arm)
    {
        double degrees = Math.Atan2(arm.Y, arm.X) * 180 / Math.PI;
        return degrees < 0 ? degrees + 360 : degrees;
    }
}

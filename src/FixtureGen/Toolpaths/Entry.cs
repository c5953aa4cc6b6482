using FixtureGen.Geometry;
using FixtureGen.Holding;
using FixtureGen.Model;

namespace FixtureGen.Toolpaths;

/// <summary>
/// How a tool gets down to a ring: straight where that is outside the block, by a helix about the middle of a ring too small
/// to run round, else down a ramp along the ring itself, which is then passed over again at full depth.
/// </summary>
internal sealed class Entry(Region area, Tool tool, CutData data, Box2? stock)
{
    /// <summary>Rings shorter than this many diameters are entered by a helix.</summary>
    private const double SmallRing = 1.6;

    /// <summary>Radius of a helix in diameters; below one half it leaves no core.</summary>
    private const double HelixRadius = 0.4;

    private double Slope => Math.Tan(data.MaxRampDeg * Math.PI / 180);

    /// <summary>From the hop height to all round the ring at <paramref name="z"/>; the ground is at <paramref name="above"/>.</summary>
    public void Enter(Pen pen, Contour loop, double at, double above, double z)
    {
        double length = loop.Segments.Sum(s => s.Length);
        if (Outside(loop) is { } open)
        {
            pen.Rapid(Point3.At(loop.Segments[open].Start, pen.At.Z));
            pen.LineZ(z, data.Feed);
            double from = loop.Segments.Take(open).Sum(s => s.Length);
            pen.Follow(Along.Loop(loop.Segments, from, length), z, data.Feed);
            return;
        }
        if (length < SmallRing * tool.Diameter && Helix(loop) is { } helix)
        {
            Spiral(pen, helix.Centre, helix.Radius, above, z);
            (at, Point2 point, _) = Along.Nearest(loop.Segments, pen.At.Xy);
            pen.Line(Point3.At(point, z), data.Feed);
            pen.Follow(Along.Loop(loop.Segments, at, length), z, data.Feed);
            return;
        }
        Point2 start = Along.Loop(loop.Segments, at, length).First().Start;
        pen.Rapid(Point3.At(start, pen.At.Z));
        pen.Approach(above, data);
        Descend(pen, loop, at, z);
    }

    /// <summary>Down along the ring from where the tool is, then once round at depth.</summary>
    public void Descend(Pen pen, Contour loop, double at, double z)
    {
        double length = loop.Segments.Sum(s => s.Length);
        double ramp = (pen.At.Z - z) / Slope;
        pen.Slope([.. Along.Loop(loop.Segments, at, ramp)], z, data.Feed);
        pen.Follow(Along.Loop(loop.Segments, (at + ramp) % length, length), z, data.Feed);
    }

    private void Spiral(Pen pen, Point2 centre, double radius, double above, double z)
    {
        pen.Rapid(Point3.At(centre + new Point2(radius, 0), pen.At.Z));
        pen.Approach(above, data);
        double pitch = 2 * Math.PI * radius * Slope;
        foreach (double next in Passes.Down(above, z, pitch))
        {
            pen.Turn(centre, ccw: true, next, data.Feed);
        }
        pen.Turn(centre, ccw: true, z, data.Feed);
    }

    private (Point2 Centre, double Radius)? Helix(Contour loop)
    {
        Point2 middle = Measure.Bounds(loop).Middle;
        double room = Measure.Distance(middle, area) - tool.Radius;
        double radius = Math.Min(HelixRadius * tool.Diameter, room);
        return Inside.Contains(area, middle) && radius > 0.15 * tool.Diameter ? (middle, radius) : null;
    }

    /// <summary>A corner of the ring where the whole tool is outside the block, if the region runs over the block's edge.</summary>
    private int? Outside(Contour loop)
    {
        if (stock is not { } box)
        {
            return null;
        }
        for (int i = 0; i < loop.Segments.Length; i++)
        {
            Point2 p = loop.Segments[i].Start;
            double dx = Math.Max(Math.Max(box.MinX - p.X, p.X - box.MaxX), 0);
            double dy = Math.Max(Math.Max(box.MinY - p.Y, p.Y - box.MaxY), 0);
            if (new Point2(dx, dy).Length > tool.Radius + 0.5)
            {
                return i;
            }
        }
        return null;
    }
}

using FixtureGen.Cutting;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Toolpaths.Moves;

/// <summary>
/// How a tool gets down to a ring: straight where that is outside the block, by a helix about the middle of a ring too small
/// to run round (which clears what lies within it), else down a ramp along the ring itself, which is then passed over again at full depth. A tool that stands on
/// cleared ground goes to the beginning there, without being lifted.
/// </summary>
internal sealed class Entry(Region area, Tool tool, CutData data, Box2? stock)
{
    /// <summary>Rings shorter than this many diameters are entered by a helix.</summary>
    private const double SmallRing = 1.6;

    /// <summary>Radius of a helix in diameters; below one half it leaves no core.</summary>
    private const double HelixRadius = 0.4;

    private double Slope => Math.Tan(data.MaxRampDeg * Math.PI / 180);

    /// <summary>Where the tool must stand to enter a ring.</summary>
    public Point2 Begin(Contour loop, double at) =>
        Outside(loop) is { } open ? loop.Segments[open].Start
        : Helix(loop) is { } helix ? helix.Centre + new Point2(helix.Radius, 0)
        : Along.Loop(loop.Segments, at, Measure.Length(loop)).First().Start;

    /// <summary>From the hop height, or from cleared ground, to all round the ring at <paramref name="z"/>; the ground is at <paramref name="above"/>.</summary>
    public void Enter(Pen pen, Contour loop, double at, double above, double z)
    {
        double length = loop.Segments.Sum(s => s.Length);
        EnterAt(pen, Begin(loop, at), above);
        if (Outside(loop) is { } open)
        {
            pen.LineZ(z, data.Feed);
            double from = loop.Segments.Take(open).Sum(s => s.Length);
            pen.Follow(Along.Loop(loop.Segments, from, length), z, data.Feed);
            return;
        }
        pen.Approach(above, data);
        if (Helix(loop) is { } helix)
        {
            Spiral(pen, helix.Centre, helix.Radius, above, z);
            Box2 box = Measure.Bounds(loop);
            if (new Point2(box.Width, box.Height).Length <= 2 * helix.Radius)
            {
                return;
            }
            (at, Point2 point, _) = Along.Nearest(loop.Segments, pen.At.Xy);
            pen.Line(Point3.From(point, z), data.Feed);
            pen.Follow(Along.Loop(loop.Segments, at, length), z, data.Feed);
            return;
        }
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

    private void EnterAt(Pen pen, Point2 to, double above)
    {
        if (pen.At.Z <= above + 1e-9)
        {
            pen.Line(Point3.From(to, pen.At.Z), data.Feed);
        }
        else
        {
            pen.Rapid(Point3.From(to, pen.At.Z));
        }
    }

    private void Spiral(Pen pen, Point2 centre, double radius, double above, double z)
    {
        double pitch = 2 * Math.PI * radius * Slope;
        foreach (double next in Passes.Down(above, z, pitch))
        {
            pen.Turn(centre, ccw: true, next, data.Feed);
        }
        pen.Turn(centre, ccw: true, z, data.Feed);
    }

    /// <summary>The helix into a small ring; null for a large one, or where there is no room to turn in the middle.</summary>
    private (Point2 Centre, double Radius)? Helix(Contour loop)
    {
        if (loop.Segments.Sum(s => s.Length) >= SmallRing * tool.Diameter)
        {
            return null;
        }
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

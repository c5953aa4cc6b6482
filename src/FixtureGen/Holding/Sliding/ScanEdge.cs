using FixtureGen.Model;

namespace FixtureGen.Holding.Sliding;

/// <summary>
/// A line, or a piece of an arc that runs only up or only down, so that every level scan line meets it once or not at all.
/// Side is +1 where an arc's piece lies right of its centre, -1 left of it, 0 for a line. mm.
/// </summary>
internal readonly record struct ScanEdge(Point2 From, Point2 To, Point2 Centre, double Radius, double Side)
{
    public double Low => Math.Min(From.Y, To.Y);

    /// <summary>Scan lines from Low up to, but not at, High meet the piece, so that neighbours end to end are met once.</summary>
    public double High => Math.Max(From.Y, To.Y);

    /// <summary>Where a scan line between Low and High meets it.</summary>
    public double XAt(double y)
    {
        if (Side == 0)
        {
            return From.X + ((y - From.Y) / (To.Y - From.Y) * (To.X - From.X));
        }
        double h = y - Centre.Y;
        return Centre.X + (Side * Math.Sqrt(Math.Max(0, (Radius * Radius) - (h * h))));
    }

    /// <summary>The pieces of a segment, in its direction or against it.</summary>
    public static IEnumerable<ScanEdge> Split(Segment s)
    {
        if (!s.IsArc)
        {
            yield return new ScanEdge(s.Start, s.End, default, 0, 0);
            yield break;
        }
        Point2 from = s.Start - s.Centre;
        double start = Math.Atan2(from.Y, from.X);
        double end = start + s.Sweep;
        double low = Math.Min(start, end);
        double high = Math.Max(start, end);
        List<double> cuts = [low];
        for (int k = (int)Math.Ceiling((low - (Math.PI / 2)) / Math.PI); (Math.PI / 2) + (k * Math.PI) < high; k++)
        {
            double turn = (Math.PI / 2) + (k * Math.PI);
            if (turn > low)
            {
                cuts.Add(turn);
            }
        }
        cuts.Add(high);
        double radius = s.Radius;
        for (int i = 0; i + 1 < cuts.Count; i++)
        {
            double side = Math.Cos((cuts[i] + cuts[i + 1]) / 2) >= 0 ? 1 : -1;
            yield return new ScanEdge(On(s, cuts[i]), On(s, cuts[i + 1]), s.Centre, radius, side);
        }
    }

    /// <summary>An arc's point at an angle; its own ends exactly, so that neighbours meet.</summary>
    public static Point2 On(Segment s, double angle)
    {
        Point2 from = s.Start - s.Centre;
        double start = Math.Atan2(from.Y, from.X);
        if (angle == start)
        {
            return s.Start;
        }
        return angle == start + s.Sweep ? s.End : s.Centre + (new Point2(Math.Cos(angle), Math.Sin(angle)) * s.Radius);
    }
}

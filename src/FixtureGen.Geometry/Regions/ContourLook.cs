using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>What one cheap pass over a contour tells; where it says no, a closer look decides.</summary>
internal readonly record struct ContourLook
{
    private readonly double _chords;
    private readonly bool _bulky;
    private readonly double _x0;
    private readonly double _y0;
    private readonly double _x1;
    private readonly double _y1;

    private ContourLook(bool isWhole, double chords, bool bulky, Box2 ends)
    {
        IsWhole = isWhole;
        _chords = chords;
        _bulky = bulky;
        (_x0, _y0, _x1, _y1) = (ends.MinX, ends.MinY, ends.MaxX, ends.MaxY);
    }

    /// <summary>True where all coordinates are finite, no gap is beyond the grid, and every arc is one.</summary>
    public bool IsWhole { get; }

    /// <summary>True where it runs counter-clockwise for certain.</summary>
    public bool TurnsLeft => _chords > 0 && !_bulky;

    /// <summary>True where it runs clockwise for certain.</summary>
    public bool TurnsRight => _chords < 0 && !_bulky;

    /// <summary>True where its ends lie within the other's and no arc of it is large.</summary>
    public bool LiesWithin(in ContourLook outer, Slack slack) =>
        !_bulky
        && _x0 >= outer._x0 - slack.Grid
        && _y0 >= outer._y0 - slack.Grid
        && _x1 <= outer._x1 + slack.Grid
        && _y1 <= outer._y1 + slack.Grid;

    public static ContourLook LookAt(ReadOnlySpan<Segment> segments, Slack slack)
    {
        if (segments.Length == 0)
        {
            return new(isWhole: true, 0, bulky: false, default);
        }
        Point2 origin = segments[0].Start;
        Point2 at = segments[^1].End;
        double sum = 0;
        double chords = 0;
        bool bulky = false;
        bool broken = false;
        (double x0, double y0, double x1, double y1) = (origin.X, origin.Y, origin.X, origin.Y);
        foreach (ref readonly Segment s in segments)
        {
            broken = broken || (s.Start != at && !(s.Start.DistanceTo(at) <= slack.Grid));
            // Anything that is not finite makes the sum so, or not a number.
            sum +=
                (s.Start.X - s.Start.X)
                + (s.Start.Y - s.Start.Y)
                + (s.Centre.X - s.Centre.X)
                + (s.Centre.Y - s.Centre.Y);
            chords += (s.Start - origin).Cross(s.End - origin);
            (x0, y0) = (Math.Min(x0, s.Start.X), Math.Min(y0, s.Start.Y));
            (x1, y1) = (Math.Max(x1, s.Start.X), Math.Max(y1, s.Start.Y));
            if (s.IsArc)
            {
                broken = broken || IsNone(s, slack);
                bulky = bulky || Bulges(s);
            }
            at = s.End;
        }
        return new(!broken && sum == 0, chords, bulky, new(x0, y0, x1, y1));
    }

    private static bool IsNone(in Segment s, Slack slack)
    {
        Point2 a = s.Start - s.Centre;
        Point2 b = s.End - s.Centre;
        // (ra - rb) (ra + rb), so that no root is taken; what is near the limit is looked at closely later.
        double difference = a.Dot(a) - b.Dot(b);
        return s.Start == s.End
            || difference * difference > 3.9 * slack.Radii * slack.Radii * Math.Min(a.Dot(a), b.Dot(b));
    }

    /// <summary>True for an arc of half a turn or more.</summary>
    private static bool Bulges(in Segment s)
    {
        double turned = (s.Start - s.Centre).Cross(s.End - s.Centre);
        return s.IsCcw ? turned <= 0 : turned >= 0;
    }
}

using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// Arcs as drawings give them, made into arcs that can be worked with: both ends on the circle, and a radius that doubles can
/// hold. An arc whose ends lie at unlike distances from its centre keeps its ends and its centre moves along the chord; no
/// point of it moves by more than that difference. An arc so flat that its radius is beyond what doubles hold to the snapping
/// distance becomes chords that nowhere leave it by more than that. An arc of nearly a whole turn becomes two, one
/// without length none.
/// </summary>
internal static class GivenArcs
{
    // In radii: an arc of more than half a turn whose ends are nearer than this is put as two.
    private const double NearlyWhole = 0.01;

    /// <summary>The regions with all such arcs made workable; themselves where there is none.</summary>
    /// <param name="near">The snapping distance, mm.</param>
    /// <param name="moved">Becomes the farthest that a point moved, mm, where that is more than before.</param>
    public static IReadOnlyList<Region> Workable(IReadOnlyList<Region> regions, double near, ref double moved)
    {
        Region[]? made = null;
        for (int i = 0; i < regions.Count; i++)
        {
            Region r = regions[i];
            if (AreFine(r.Outer.Segments, near) && r.Holes.All(h => AreFine(h.Segments, near)))
            {
                continue;
            }
            made ??= [.. regions];
            double most = moved;
            made[i] = new(
                new(Workable(r.Outer.Segments, near, ref most)),
                [.. r.Holes.Select(h => new Contour(Workable(h.Segments, near, ref most)))]
            );
            moved = most;
        }
        return made ?? regions;
    }

    /// <summary>The same of one chain.</summary>
    public static ImmutableArray<Segment> Workable(ImmutableArray<Segment> chain, double near, ref double moved)
    {
        if (AreFine(chain, near))
        {
            return chain;
        }
        var parts = ImmutableArray.CreateBuilder<Segment>();
        foreach (Segment s in chain)
        {
            moved = Math.Max(moved, AddParts(s, near, parts));
        }
        return parts.ToImmutable();
    }

    /// <summary>For each segment of the workable chain the one that it was made of.</summary>
    public static int[] Origins(ImmutableArray<Segment> chain, double near)
    {
        List<int> origins = [];
        var parts = ImmutableArray.CreateBuilder<Segment>();
        for (int i = 0; i < chain.Length; i++)
        {
            parts.Clear();
            AddParts(chain[i], near, parts);
            origins.AddRange(Enumerable.Repeat(i, parts.Count));
        }
        return [.. origins];
    }

    private static bool AreFine(ImmutableArray<Segment> chain, double near)
    {
        foreach (ref readonly Segment s in chain.AsSpan())
        {
            if (s.IsArc && !IsFine(s, near))
            {
                return false;
            }
        }
        return true;
    }

    private static bool IsFine(in Segment s, double near)
    {
        if (s.Start == s.End)
        {
            return false;
        }
        Point2 a = s.Start - s.Centre;
        Point2 b = s.End - s.Centre;
        double a2 = a.Dot(a);
        double b2 = b.Dot(b);
        // (ra - rb) (ra + rb), so that no root is taken.
        double difference = a2 - b2;
        return difference * difference <= 16 * near * near * Math.Max(a2, b2)
            && !IsBeyond(s, near, Math.Max(a2, b2))
            && !IsNearlyWhole(s, a2);
    }

    /// <summary>Adds what stands for a segment, in order from its start to its end; returns how far a point may have moved.</summary>
    private static double AddParts(in Segment s, double near, ImmutableArray<Segment>.Builder parts)
    {
        if (!s.IsArc || IsFine(s, near))
        {
            parts.Add(s);
            return 0;
        }
        if (s.Start == s.End)
        {
            return 0;
        }
        double a = s.Start.DistanceTo(s.Centre);
        double off = Math.Abs(a - s.End.DistanceTo(s.Centre));
        if (off <= 2 * near && IsNearlyWhole(s, a * a))
        {
            Point2 half = Curve.From(s).Middle;
            parts.Add(s with { End = half });
            parts.Add(s with { Start = half });
            return 0;
        }
        if (IsBeyond(s, near, a * a))
        {
            return AddChords(s, near, parts);
        }
        if (s.Start.DistanceTo(s.End) <= off)
        {
            parts.Add(Segment.Line(s.Start, s.End));
        }
        else if (Turned(s) >= 0)
        {
            parts.Add(Recentred(s));
        }
        else
        {
            Point2 middle = Curve.From(s).Middle;
            parts.Add(Recentred(s with { End = middle }));
            parts.Add(Recentred(s with { Start = middle }));
        }
        return off;
    }

    /// <summary>True where the ends are so near to each other that next to nothing makes the arc none at all, or a whole circle.</summary>
    private static bool IsNearlyWhole(in Segment s, double radius2)
    {
        Point2 chord = s.End - s.Start;
        return chord.Dot(chord) < NearlyWhole * NearlyWhole * radius2 && Turned(s) < 0;
    }

    /// <summary>Above 0 for less than half a turn.</summary>
    private static double Turned(in Segment s) => (s.Start - s.Centre).Cross(s.End - s.Centre) * (s.IsCcw ? 1 : -1);

    /// <summary>True for an arc of less than half a turn whose radius, not whose place, costs the digits.</summary>
    private static bool IsBeyond(in Segment s, double near, double radius2)
    {
        return radius2 * Rounding.OfCoordinates * Rounding.OfCoordinates > near * near
            && Math.Sqrt(radius2) > Place(s)
            && Turned(s) > 0;
    }

    /// <summary>The greatest coordinate of the ends, mm.</summary>
    private static double Place(in Segment s) =>
        Math.Max(Math.Max(Math.Abs(s.Start.X), Math.Abs(s.Start.Y)), Math.Max(Math.Abs(s.End.X), Math.Abs(s.End.Y)));

    private static Segment Recentred(in Segment s)
    {
        Point2 middle = (s.Start + s.End) * 0.5;
        Point2 normal = (s.End - s.Start).Left;
        double along = normal.Dot(s.Centre - middle) / normal.Dot(normal);
        return s with { Centre = middle + (normal * along) };
    }

    /// <summary>The arc's height over its chord is so small against its length that it is a parabola.</summary>
    private static double AddChords(in Segment s, double near, ImmutableArray<Segment>.Builder parts)
    {
        Point2 chord = s.End - s.Start;
        double height = chord.Dot(chord) / (8 * s.Radius);
        double allowed = Math.Max(near, LoopLoader.RoundingOf(Place(s)));
        int n = Math.Max(1, (int)Math.Ceiling(Math.Sqrt(height / allowed)));
        Point2 side = chord.Left * ((s.IsCcw ? -4 : 4) * height / chord.Length);
        Point2 at = s.Start;
        for (int i = 1; i <= n; i++)
        {
            double t = (double)i / n;
            Point2 next = i == n ? s.End : s.Start + (chord * t) + (side * (t * (1 - t)));
            parts.Add(Segment.Line(at, next));
            at = next;
        }
        return height / (n * n);
    }
}

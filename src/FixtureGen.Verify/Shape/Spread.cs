using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Verify.Shape;

/// <summary>The least and the greatest distance of a line from another, mm, with where each is.</summary>
internal readonly record struct Spread(double Least, Point2 LeastAt, double Greatest, Point2 GreatestAt)
{
    /// <summary>A greatest distance is known this well, mm.</summary>
    public const double Precision = 1e-4;

    private const double Near = 2;

    /// <summary>
    /// True extremes of the pieces' distance from the axis, not samples. A least distance above <paramref name="atMost"/> and a
    /// greatest one below <paramref name="atLeast"/> are answered as just these.
    /// </summary>
    public static Spread Find(IEnumerable<Piece> pieces, PieceBins axis, double atMost, double atLeast)
    {
        (double least, Point2 leastAt) = (atMost, default);
        (double greatest, Point2 greatestAt) = (atLeast, default);
        List<int> near = [];
        foreach (Piece piece in pieces)
        {
            near.Clear();
            axis.Near(piece.Bounds(), least, near);
            foreach (int i in near)
            {
                (double d, double s, _) = Distance.Between(piece, axis.Pieces[i]);
                (least, leastAt) = d < least ? (d, piece.PointAt(s)) : (least, leastAt);
            }
            Farthest(piece, axis, ref greatest, ref greatestAt);
        }
        return new Spread(least, leastAt, greatest, greatestAt);
    }

    /// <summary>Distance of a point from the nearest of the pieces, mm; infinite where there are none.</summary>
    public static double To(PieceBins pieces, Point2 p) => Nearest(pieces, p, []).Distance;

    /// <summary>
    /// The greatest value along a piece, to <see cref="Precision"/>, of a function that changes by no more than the way between two
    /// points; atLeast where none is greater. A stretch is halved until what it can have at most says that nothing is left to find.
    /// </summary>
    /// <param name="bound">What no point of a stretch exceeds, where that is known better than by its length; else infinite.</param>
    public static double GreatestAlong(
        Piece piece,
        Func<Point2, double> value,
        Func<Piece, double> bound,
        double atLeast
    )
    {
        double best = atLeast;
        Stack<Piece> open = new([piece]);
        while (open.TryPop(out Piece part))
        {
            double v = value(part.PointAt(0.5));
            best = Math.Max(best, v);
            if (Math.Min(v + (part.Length / 2), bound(part)) > best + Precision)
            {
                open.Push(part.Part(0.5, 1));
                open.Push(part.Part(0, 0.5));
            }
        }
        return best;
    }

    /// <summary>The stretches of a piece that lie within an area whose edges these are.</summary>
    public static IEnumerable<Piece> Within(Piece piece, Area area, PieceBins edges)
    {
        List<int> near = [];
        edges.Near(piece.Bounds(), 0, near);
        List<double> cuts = [0, 1];
        Span<(double S, double T)> crossings = stackalloc (double, double)[Crossings.Most];
        foreach (int i in near)
        {
            foreach ((double s, _) in crossings[..Crossings.Find(piece, edges.Pieces[i], crossings)])
            {
                cuts.Add(s);
            }
        }
        cuts.Sort();
        List<Piece> inside = [];
        for (int i = 0; i + 1 < cuts.Count; i++)
        {
            bool some = (cuts[i + 1] - cuts[i]) * piece.Length > Precision;
            if (some && area.Contains(piece.PointAt((cuts[i] + cuts[i + 1]) / 2)))
            {
                inside.Add(piece.Part(cuts[i], cuts[i + 1]));
            }
        }
        return inside;
    }

    /// <summary>The pieces of a contour or path.</summary>
    public static ImmutableArray<Piece> PiecesOf(IEnumerable<Segment> segments) =>
        [.. segments.Select(Piece.From).Where(p => p.Length > 0)];

    private static void Farthest(Piece piece, PieceBins axis, ref double greatest, ref Point2 at)
    {
        List<int> near = [];
        Stack<Piece> open = new([piece]);
        while (open.TryPop(out Piece part))
        {
            foreach (Point2 p in (ReadOnlySpan<Point2>)[part.A, part.B])
            {
                double end = Nearest(axis, p, near).Distance;
                (greatest, at) = end > greatest ? (end, p) : (greatest, at);
            }
            Point2 middle = part.PointAt(0.5);
            (double d, int i) = Nearest(axis, middle, near);
            (greatest, at) = d > greatest ? (d, middle) : (greatest, at);
            double most = i < 0 ? d : Math.Min(d + (part.Length / 2), Most(part, axis.Pieces[i]));
            if (most > greatest + Precision && part.Length > Precision)
            {
                open.Push(part.Part(0.5, 1));
                open.Push(part.Part(0, 0.5));
            }
        }
    }

    /// <summary>
    /// What no point of a piece is farther from another than: a line's distance from a line is greatest at an end, since it is convex;
    /// beside an arc it is what the distance from its centre differs from its radius; and nothing is farther from a line than from
    /// either of its ends.
    /// </summary>
    public static double Most(Piece piece, Piece other)
    {
        if (!other.IsArc)
        {
            return piece.IsArc
                ? Math.Min(Farthest(piece, other.A), Farthest(piece, other.B))
                : Math.Max(Distance.To(other, piece.A), Distance.To(other, piece.B));
        }
        bool beside =
            other.TurnTo(piece.A) is >= 0 and <= 1
            && other.TurnTo(piece.B) is >= 0 and <= 1
            && other.TurnTo(piece.PointAt(0.5)) is >= 0 and <= 1;
        return beside
            ? Math.Max(Farthest(piece, other.C) - other.R, other.R - Distance.To(piece, other.C))
            : double.PositiveInfinity;
    }

    /// <summary>The farthest that a piece gets from a point.</summary>
    private static double Farthest(Piece piece, Point2 p)
    {
        double ends = Math.Max(p.DistanceTo(piece.A), p.DistanceTo(piece.B));
        bool opposite = piece.IsArc && piece.TurnTo(piece.C + (piece.C - p)) is >= 0 and <= 1;
        return opposite ? Math.Max(ends, p.DistanceTo(piece.C) + piece.R) : ends;
    }

    private static (double Distance, int Piece) Nearest(PieceBins axis, Point2 p, List<int> near)
    {
        for (double reach = Near; ; reach *= 8)
        {
            near.Clear();
            axis.Near(new Box2(p.X, p.Y, p.X, p.Y), reach, near);
            bool all = near.Count == axis.Pieces.Length;
            (double best, int nearest) = (double.PositiveInfinity, -1);
            foreach (int i in near)
            {
                double d = Distance.To(axis.Pieces[i], p);
                (best, nearest) = d < best ? (d, i) : (best, nearest);
            }
            if (best <= reach || all || reach > 1e6)
            {
                return (best, nearest);
            }
        }
    }
}

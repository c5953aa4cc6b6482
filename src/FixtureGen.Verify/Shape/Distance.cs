using FixtureGen.Model;

namespace FixtureGen.Verify.Shape;

/// <summary>Closed-form distances between points, lines and arcs, mm, with the parameters of the nearest points.</summary>
internal static class Distance
{
    /// <summary>Parameter 0..1 of the piece's point nearest to p.</summary>
    public static double Nearest(Piece piece, Point2 p)
    {
        if (!piece.IsArc)
        {
            Point2 d = piece.B - piece.A;
            double l2 = d.Dot(d);
            return l2 <= 0 ? 0 : Math.Clamp((p - piece.A).Dot(d) / l2, 0, 1);
        }
        double t = piece.TurnTo(p);
        if (t is >= 0 and <= 1)
        {
            return t;
        }
        return p.DistanceTo(piece.A) <= p.DistanceTo(piece.B) ? 0 : 1;
    }

    public static double To(Piece piece, Point2 p)
    {
        if (piece.IsArc)
        {
            double t = piece.TurnTo(p);
            return t is >= 0 and <= 1
                ? Math.Abs(p.DistanceTo(piece.C) - piece.R)
                : Math.Min(p.DistanceTo(piece.A), p.DistanceTo(piece.B));
        }
        Point2 d = piece.B - piece.A;
        double l2 = d.Dot(d);
        double s = l2 <= 0 ? 0 : Math.Clamp((p - piece.A).Dot(d) / l2, 0, 1);
        return (piece.A + (d * s)).DistanceTo(p);
    }

    /// <summary>Least distance of two pieces and where on each.</summary>
    public static (double Distance, double S, double T) Between(Piece a, Piece b)
    {
        (double Distance, double S, double T) best = (double.MaxValue, 0, 0);
        Try(a, b, 0, Nearest(b, a.A), ref best);
        Try(a, b, 1, Nearest(b, a.B), ref best);
        Try(a, b, Nearest(a, b.A), 0, ref best);
        Try(a, b, Nearest(a, b.B), 1, ref best);
        if (best.Distance == 0)
        {
            return best;
        }
        Span<(double S, double T)> crossings = stackalloc (double, double)[Crossings.Most];
        foreach ((double s, double t) in crossings[..Crossings.Find(a, b, crossings)])
        {
            Try(a, b, s, t, ref best);
        }
        Interior(a, b, ref best);
        return best;
    }

    private static void Try(Piece a, Piece b, double s, double t, ref (double Distance, double S, double T) best)
    {
        double d = a.PointAt(s).DistanceTo(b.PointAt(t));
        if (d < best.Distance)
        {
            best = (d, s, t);
        }
    }

    /// <summary>Closest approach inside both pieces: along the normal through an arc's centre.</summary>
    private static void Interior(Piece a, Piece b, ref (double Distance, double S, double T) best)
    {
        if (a.IsArc && b.IsArc)
        {
            Point2 axis = b.C - a.C;
            double l = axis.Length;
            if (l <= 0)
            {
                return;
            }
            Point2 u = axis * (1 / l);
            foreach (double side in (ReadOnlySpan<double>)[1, -1])
            {
                Point2 onA = a.C + (u * (side * a.R));
                double s = a.TurnTo(onA);
                if (s is >= 0 and <= 1)
                {
                    Try(a, b, s, Nearest(b, onA), ref best);
                }
            }
        }
        else if (a.IsArc || b.IsArc)
        {
            Piece arc = a.IsArc ? a : b;
            Piece line = a.IsArc ? b : a;
            double on = Nearest(line, arc.C);
            double round = Nearest(arc, line.PointAt(on));
            if (a.IsArc)
            {
                Try(a, b, round, on, ref best);
            }
            else
            {
                Try(a, b, on, round, ref best);
            }
        }
    }
}

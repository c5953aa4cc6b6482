namespace FixtureGen.Verify.Shape;

/// <summary>Horizontal scan lines against lines and arcs. A piece counts from its lower end (included) to its upper (not).</summary>
internal static class Scan
{
    /// <summary>Writes the x of every crossing of the piece with height y and returns how many (at most 4).</summary>
    public static int Cross(Piece piece, double y, Span<double> xs)
    {
        if (!piece.IsArc)
        {
            if (piece.A.Y <= y == piece.B.Y <= y)
            {
                return 0;
            }
            xs[0] = piece.A.X + ((y - piece.A.Y) / (piece.B.Y - piece.A.Y) * (piece.B.X - piece.A.X));
            return 1;
        }
        double h = y - piece.C.Y;
        double low = Math.Min(piece.C.Y - piece.R, Math.Min(piece.A.Y, piece.B.Y));
        double high = Math.Max(piece.C.Y + piece.R, Math.Max(piece.A.Y, piece.B.Y));
        if (y < low || y > high)
        {
            return 0;
        }
        return Arc(piece, y, h, xs);
    }

    /// <summary>
    /// The arc is cut at its highest and lowest points into runs that only rise or only fall; each run is crossed when its own
    /// ends lie on either side, so neighbouring pieces never count a shared end twice.
    /// </summary>
    private static int Arc(Piece piece, double y, double h, Span<double> xs)
    {
        double x = Math.Sqrt(Math.Max(0, (piece.R * piece.R) - (h * h)));
        double from = piece.Sweep > 0 ? piece.A0 : piece.A0 + piece.Sweep;
        double to = piece.Sweep > 0 ? piece.A0 + piece.Sweep : piece.A0;
        double yFrom = piece.Sweep > 0 ? piece.A.Y : piece.B.Y;
        double yTo = piece.Sweep > 0 ? piece.B.Y : piece.A.Y;
        double half = Math.PI / 2;
        double cut = (Math.Floor((from - half) / Math.PI) * Math.PI) + half + Math.PI;
        int n = 0;
        double yRun = yFrom;
        double start = from;
        while (true)
        {
            bool last = cut >= to;
            double end = last ? to : cut;
            double yEnd = last ? yTo : piece.C.Y + (Math.Sin(cut) > 0 ? piece.R : -piece.R);
            if (yRun <= y != yEnd <= y && n < xs.Length)
            {
                xs[n++] = piece.C.X + (Math.Cos((start + end) / 2) > 0 ? x : -x);
            }
            if (last)
            {
                return n;
            }
            yRun = yEnd;
            start = cut;
            cut += Math.PI;
        }
    }
}

using FixtureGen.Model;

namespace FixtureGen.Programs;

/// <summary>
/// Arcs and helices for one control: split to its greatest sweep, then rounded so that the two radii still agree as
/// RS274/NGC asks (NISTIR 6556 3.5.3). The centre is chosen among the grid points round the true one.
/// </summary>
internal static class ArcWriter
{
    // With ends and centre rounded to the grid the radii differ by up to 4 sqrt(2) half ticks; two ticks each way mend it.
    private const int Search = 2;

    private const int MostPieces = 16;

    // A sweep rounded this little over the control's limit still counts as within it, radians.
    private const double SweepSlack = 5e-5;

    // An arc whose chord is shorter than this many ticks is written as its chord.
    private const double ShortestTicks = 2;

    public static void Write(BlockWriter blocks, Control control, Point3 from, ArcMove arc)
    {
        Point2 a = from.Xy - arc.Centre;
        double sweep = Sweep(a, arc.To.Xy - arc.Centre, arc.Ccw);
        double most = control.MaxArcSweepDeg * Math.PI / 180;
        int parts = Math.Max(1, (int)Math.Ceiling((Math.Abs(sweep) / most) - 1e-9));
        if (control.SplitFullCircles && Math.Abs(sweep) > (2 * Math.PI) - 1e-9)
        {
            parts = Math.Max(2, parts);
        }
        Point3[] ends = Ends(from, arc, sweep, parts);
        // rounding widens a sweep a little, that of a tiny arc more; where it passes the control's limit, one piece more
        while (
            parts < MostPieces && most < 2 * Math.PI && !Within(blocks.Format, from.Xy, arc, ends, most + SweepSlack)
        )
        {
            ends = Ends(from, arc, sweep, ++parts);
        }
        foreach (Point3 end in ends)
        {
            Piece(blocks, control, arc, end, Math.Abs(sweep) / parts);
        }
    }

    private static Point3[] Ends(Point3 from, ArcMove arc, double sweep, int parts)
    {
        Point2 a = from.Xy - arc.Centre;
        double start = Math.Atan2(a.Y, a.X);
        return
        [
            .. Enumerable
                .Range(1, parts)
                .Select(i =>
                {
                    double k = (double)i / parts;
                    double angle = start + (sweep * k);
                    Point2 p =
                        i == parts ? arc.To.Xy : arc.Centre + (a.Length * new Point2(Math.Cos(angle), Math.Sin(angle)));
                    return Point3.From(p, from.Z + ((arc.To.Z - from.Z) * k));
                }),
        ];
    }

    private static bool Within(WordFormat f, Point2 from, ArcMove arc, Point3[] ends, double most)
    {
        Point2 c = Grid(arc.Centre);
        Point2 at = Grid(from) - c;
        foreach (Point3 end in ends)
        {
            Point2 next = Grid(end.Xy) - c;
            if (Math.Abs(Sweep(at, next, arc.Ccw)) > most)
            {
                return false;
            }
            at = next;
        }
        return true;

        Point2 Grid(Point2 p) => new(f.Ticks(p.X), f.Ticks(p.Y));
    }

    /// <summary>Signed sweep from a to b about the origin, radians; a full turn where they are the same.</summary>
    public static double Sweep(Point2 a, Point2 b, bool ccw)
    {
        if (a.DistanceTo(b) < 1e-9)
        {
            return ccw ? 2 * Math.PI : -2 * Math.PI;
        }
        double angle = Math.Atan2(a.Cross(b), a.Dot(b));
        return ccw ? (angle <= 0 ? angle + (2 * Math.PI) : angle) : (angle >= 0 ? angle - (2 * Math.PI) : angle);
    }

    private static void Piece(BlockWriter blocks, Control control, ArcMove arc, Point3 to, double sweep)
    {
        WordFormat f = blocks.Format;
        (long x, long y, long z) = (f.Ticks(to.X), f.Ticks(to.Y), f.Ticks(to.Z));
        (long x0, long y0) = (blocks.X!.Value, blocks.Y!.Value);
        double chord = Distance(x - x0, y - y0);
        Point2 centre = new(f.ExactTicks(arc.Centre.X), f.ExactTicks(arc.Centre.Y));
        bool full = sweep > (2 * Math.PI) - 1e-9;
        if (full)
        {
            (x, y, chord) = (x0, y0, 0);
        }
        if (!full && chord < ShortestTicks && sweep < Math.PI)
        {
            blocks.Straight("G1", x, y, z, arc.FeedMmPerMin);
            return;
        }
        (long cx, long cy, double mismatch) = BestCentre(centre, x0, y0, x, y);
        if (control.Arc == ArcForm.Centre && mismatch > f.ArcLimitTicks)
        {
            Point2 at = new(arc.To.X, arc.To.Y);
            double mm = mismatch / f.ExactTicks(1);
            double limit = f.ArcLimitTicks / f.ExactTicks(1);
            blocks.Findings.Add(ProgramFindings.ArcRounding("", blocks.NextLine, at, mm, limit, control));
        }
        string shape =
            control.Arc == ArcForm.Centre
                ? $"I{f.Length(cx - x0)} J{f.Length(cy - y0)}"
                : $"R{f.Length(Radius(centre, x0, y0, x, y, chord))}";
        blocks.Arc(arc.Ccw ? "G3" : "G2", x, y, z, shape, arc.FeedMmPerMin);
    }

    private static (long X, long Y, double Mismatch) BestCentre(Point2 centre, long x0, long y0, long x1, long y1)
    {
        long bx = (long)Math.Round(centre.X);
        long by = (long)Math.Round(centre.Y);
        (long X, long Y, double Mismatch) best = (bx, by, double.MaxValue);
        double bestScore = double.MaxValue;
        for (long cx = bx - Search; cx <= bx + Search; cx++)
        {
            for (long cy = by - Search; cy <= by + Search; cy++)
            {
                double mismatch = Math.Abs(Distance(cx - x0, cy - y0) - Distance(cx - x1, cy - y1));
                double moved = Distance(cx - centre.X, cy - centre.Y);
                double score = mismatch + (0.2 * moved);
                if (score < bestScore && (cx != x0 || cy != y0))
                {
                    (best, bestScore) = ((cx, cy, mismatch), score);
                }
            }
        }
        return best;
    }

    // Never shorter than half the chord: the end must be reached (RS274/NGC error "arc radius too small").
    private static long Radius(Point2 centre, long x0, long y0, long x1, long y1, double chord)
    {
        double mean = (Distance(centre.X - x0, centre.Y - y0) + Distance(centre.X - x1, centre.Y - y1)) / 2;
        return Math.Max((long)Math.Round(mean), (long)Math.Ceiling(chord / 2));
    }

    private static double Distance(double dx, double dy) => Math.Sqrt((dx * dx) + (dy * dy));
}

using FixtureGen.Model;
using FixtureGen.Verify.Shape;

namespace FixtureGen.Verify.Holding;

/// <summary>Areas and lines cut into patches. Areas are read along close scan lines and gathered in square cells.</summary>
internal static class Patches
{
    /// <summary>Scan lines through one cell.</summary>
    private const int Lines = 8;

    /// <summary>About as many patches as asked for over areas that do not overlap.</summary>
    public static Patch[] OverArea(IEnumerable<Region> regions, int wanted)
    {
        Piece[] edges =
        [
            .. regions
                .SelectMany(r => r.Contours)
                .SelectMany(c => c.Segments)
                .Select(Piece.From)
                .Where(p => p.Length > 0),
        ];
        if (edges.Length == 0)
        {
            return [];
        }
        Box2 box = Area.BoundsOf(edges);
        double cell = Math.Max(Math.Sqrt(box.Width * box.Height / wanted), 1e-3);
        int columns = Math.Max(1, (int)Math.Ceiling(box.Width / cell));
        int rows = Math.Max(1, (int)Math.Ceiling(box.Height / cell));
        double step = box.Height / (rows * Lines);
        List<double>[] crossings = Crossings(edges, box.MinY, step, rows * Lines);
        Sum[] cells = new Sum[columns * rows];
        for (int line = 0; line < crossings.Length; line++)
        {
            List<double> x = crossings[line];
            x.Sort();
            double y = box.MinY + ((line + 0.5) * step);
            for (int i = 0; i + 1 < x.Count; i += 2)
            {
                Spread(cells.AsSpan(line / Lines * columns, columns), box, x[i], x[i + 1], y, step);
            }
        }
        return [.. cells.Where(c => c.Size > 0).Select(c => c.ToPatch())];
    }

    /// <summary>Along closed lines in parts of at most a length, mm.</summary>
    public static Patch[] AlongLines(IEnumerable<Contour> lines, double length)
    {
        List<Patch> patches = [];
        foreach (Piece piece in lines.SelectMany(l => l.Segments).Select(Piece.From))
        {
            int n = Math.Max(1, (int)Math.Ceiling(piece.Length / Math.Max(length, 1e-3)));
            double part = piece.Length / n;
            for (int i = 0; i < n && part > 0; i++)
            {
                patches.Add(new Patch(piece.PointAt((i + 0.5) / n), part, part * part / 12));
            }
        }
        return [.. patches];
    }

    /// <summary>Length of closed lines, mm.</summary>
    public static double Length(IEnumerable<Contour> lines) =>
        lines.SelectMany(l => l.Segments).Sum(s => Piece.From(s).Length);

    /// <summary>Area of regions that do not overlap, mm2, by the integral along their edges.</summary>
    public static double AreaOf(IEnumerable<Region> regions) => regions.Sum(AreaOf);

    /// <summary>Contours that lie in no other: the rims that a shell which rests on its edge presses on.</summary>
    public static Contour[] Rims(IReadOnlyCollection<Region> regions)
    {
        (Contour Contour, Area Inside)[] outers = [.. regions.Select(r => (r.Outer, new Area(Region.From(r.Outer))))];
        return
        [
            .. outers
                .Where(a => !outers.Any(b => b != a && b.Inside.Contains(a.Contour.Segments[0].Start)))
                .Select(a => a.Contour),
        ];
    }

    private static double AreaOf(Region region) =>
        Math.Abs(Twice(region.Outer) / 2) - region.Holes.Sum(h => Math.Abs(Twice(h) / 2));

    private static double Twice(Contour contour)
    {
        double sum = 0;
        foreach (Segment s in contour.Segments)
        {
            sum += s.Start.Cross(s.End);
            if (s.IsArc)
            {
                double sweep = s.Sweep;
                sum += s.Radius * s.Radius * (sweep - Math.Sin(sweep));
            }
        }
        return sum;
    }

    private static List<double>[] Crossings(Piece[] edges, double y0, double step, int lines)
    {
        List<double>[] found = [.. Enumerable.Range(0, lines).Select(_ => new List<double>())];
        Span<double> x = stackalloc double[4];
        foreach (Piece edge in edges)
        {
            Box2 b = edge.Bounds();
            int first = Math.Clamp((int)Math.Floor((b.MinY - y0) / step) - 1, 0, lines);
            int last = Math.Clamp((int)Math.Ceiling((b.MaxY - y0) / step) + 1, 0, lines);
            for (int line = first; line < last; line++)
            {
                int n = Scan.Cross(edge, y0 + ((line + 0.5) * step), x);
                found[line].AddRange(x[..n]);
            }
        }
        return found;
    }

    private static void Spread(Span<Sum> row, Box2 box, double from, double to, double y, double step)
    {
        double width = box.Width / row.Length;
        int first = Math.Clamp((int)((from - box.MinX) / width), 0, row.Length - 1);
        int last = Math.Clamp((int)((to - box.MinX) / width), 0, row.Length - 1);
        for (int column = first; column <= last; column++)
        {
            double a = column == first ? from : box.MinX + (column * width);
            double b = column == last ? to : box.MinX + ((column + 1) * width);
            row[column].Add((a + b) / 2, y, b - a, step);
        }
    }

    private struct Sum
    {
        private double _x;
        private double _y;
        private double _square;

        public double Size { get; private set; }

        public void Add(double x, double y, double width, double height)
        {
            double size = width * height;
            Size += size;
            _x += size * x;
            _y += size * y;
            _square += size * ((x * x) + (y * y) + (((width * width) + (height * height)) / 12));
        }

        public readonly Patch ToPatch()
        {
            Point2 middle = new(_x / Size, _y / Size);
            return new Patch(middle, Size, Math.Max(0, (_square / Size) - middle.Dot(middle)));
        }
    }
}

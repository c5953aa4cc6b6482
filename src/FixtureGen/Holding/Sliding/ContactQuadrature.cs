using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Holding.Sliding;

/// <summary>
/// Contact areas and lines cut into pieces for <see cref="PressureMeasure"/>. Areas are read along fine scan lines whose
/// crossings with lines and arcs are exact, then gathered into coarse cells that keep area, middle and second moment.
/// </summary>
internal static class ContactQuadrature
{
    private const int ScansPerCell = 6;
    private const double SameLevel = 1e-7;

    /// <summary>About <paramref name="pieces"/> pieces over areas that do not overlap; empty where there is no area.</summary>
    public static ContactPiece[] OverArea(IReadOnlyList<Region> regions, int pieces)
    {
        Segment[] edges = [.. regions.SelectMany(r => r.Contours).SelectMany(c => c.Segments)];
        if (edges.Length == 0)
        {
            return [];
        }
        Box2 box = Measure.Bounds(edges);
        double cell = Math.Sqrt(box.Width * box.Height / pieces);
        int columns = Math.Max(1, (int)Math.Ceiling(box.Width / cell));
        int rows = Math.Max(1, (int)Math.Ceiling(box.Height / cell));
        var cells = new Cell[columns * rows];
        double[] levels = Levels(edges, box, rows);
        List<double>[] crossings = Crossings(edges, levels);
        for (int line = 0; line < crossings.Length; line++)
        {
            double scan = levels[line + 1] - levels[line];
            double y = Middle(levels, line);
            int row = Math.Min(rows - 1, (int)((y - box.MinY) / box.Height * rows));
            List<double> along = crossings[line];
            along.Sort();
            for (int i = 0; i + 1 < along.Count; i += 2)
            {
                Fill(cells, columns, row, box, y, scan, along[i], along[i + 1]);
            }
        }
        return [.. cells.Where(c => c.Area > 0).Select(c => c.Piece)];
    }

    /// <summary>Heights between which scan lines run in the middle: evenly spaced, and at every corner, so that level edges are met exactly.</summary>
    private static double[] Levels(Segment[] edges, Box2 box, int rows)
    {
        int even = rows * ScansPerCell;
        List<double> levels = [.. Enumerable.Range(0, even + 1).Select(i => box.MinY + (box.Height * i / even))];
        levels.AddRange(edges.SelectMany(Extremes).Select(p => p.Y).Where(y => y > box.MinY && y < box.MaxY));
        levels.Sort();
        List<double> apart = [levels[0]];
        apart.AddRange(levels.Where(y => y - apart[^1] > SameLevel));
        return [.. apart];
    }

    /// <summary>Pieces of at most a length along closed lines, in the order of the lines; shares are lengths in mm.</summary>
    public static ContactPiece[] AlongLines(IEnumerable<Contour> lines, double length)
    {
        List<ContactPiece> pieces = [];
        foreach (Segment segment in lines.SelectMany(l => l.Segments))
        {
            int count = Math.Max(1, (int)Math.Ceiling(segment.Length / length));
            double part = segment.Length / count;
            for (int i = 0; i < count; i++)
            {
                pieces.Add(new ContactPiece(Measure.PointAt(segment, (i + 0.5) / count), part, part * part / 24));
            }
        }
        return [.. pieces];
    }

    private static void Fill(
        Cell[] cells,
        int columns,
        int row,
        Box2 box,
        double y,
        double scan,
        double from,
        double to
    )
    {
        double width = box.Width / columns;
        int first = Math.Clamp((int)((from - box.MinX) / width), 0, columns - 1);
        int last = Math.Clamp((int)((to - box.MinX) / width), 0, columns - 1);
        for (int column = first; column <= last; column++)
        {
            double a = Math.Max(from, box.MinX + (column * width));
            double b = Math.Min(to, box.MinX + ((column + 1) * width));
            if (b > a)
            {
                cells[(row * columns) + column].Add((a + b) / 2, y, b - a, scan);
            }
        }
    }

    /// <summary>Where every scan line crosses the edges. An edge is asked only for the lines between its ends.</summary>
    private static List<double>[] Crossings(Segment[] edges, double[] levels)
    {
        var found = new List<double>[levels.Length - 1];
        double[] heights = new double[found.Length];
        for (int line = 0; line < found.Length; line++)
        {
            found[line] = [];
            heights[line] = Middle(levels, line);
        }
        foreach (ScanEdge edge in edges.SelectMany(ScanEdge.Split))
        {
            int line = Array.BinarySearch(heights, edge.Low);
            for (line = line < 0 ? ~line : line; line < heights.Length && heights[line] < edge.High; line++)
            {
                found[line].Add(edge.XAt(heights[line]));
            }
        }
        return found;
    }

    private static double Middle(double[] levels, int line) => levels[line] + ((levels[line + 1] - levels[line]) / 2);

    private static IEnumerable<Point2> Extremes(Segment s)
    {
        yield return s.Start;
        yield return s.End;
        if (!s.IsArc)
        {
            yield break;
        }
        Point2 from = s.Start - s.Centre;
        double start = Math.Atan2(from.Y, from.X);
        double low = Math.Min(start, start + s.Sweep);
        double high = Math.Max(start, start + s.Sweep);
        for (int k = (int)Math.Ceiling(low / (Math.PI / 2)); k * Math.PI / 2 < high; k++)
        {
            yield return ScanEdge.On(s, k * Math.PI / 2);
        }
    }

    private struct Cell
    {
        private double _mx;
        private double _my;
        private double _second;

        public double Area { get; private set; }

        public void Add(double x, double y, double width, double height)
        {
            double area = width * height;
            Area += area;
            _mx += area * x;
            _my += area * y;
            _second += area * ((x * x) + (y * y) + (((width * width) + (height * height)) / 12));
        }

        public readonly ContactPiece Piece
        {
            get
            {
                Point2 middle = new(_mx / Area, _my / Area);
                double spread = (_second / Area) - middle.Dot(middle);
                return new ContactPiece(middle, Area, Math.Max(0, spread / 2));
            }
        }
    }
}

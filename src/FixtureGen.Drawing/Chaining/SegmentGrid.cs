using FixtureGen.Model;

namespace FixtureGen.Drawing.Chaining;

/// <summary>Segments sorted into square cells, so that near ones find each other; same segments, same answers in the same order.</summary>
internal sealed class SegmentGrid
{
    /// <summary>Most pairs of boxes compared: some ten neighbours for each segment of the largest drawing read.</summary>
    public const long MostTests = 3_000_000;

    private readonly IReadOnlyList<Box2> _boxes;
    private readonly Dictionary<(int, int), List<int>> _cells = [];
    private readonly List<(int, int)> _order = [];
    private readonly double _cell;
    private readonly double _gap;

    /// <param name="boxes">One box a segment.</param>
    /// <param name="gap">Segments within this distance of each other are neighbours.</param>
    public SegmentGrid(IReadOnlyList<Box2> boxes, double gap)
    {
        _boxes = boxes;
        _gap = gap;
        _cell = CellSize(boxes, gap);
        for (int i = 0; i < boxes.Count; i++)
        {
            (int x0, int y0, int x1, int y1) = Cells(boxes[i]);
            for (int x = x0; x <= x1; x++)
            {
                for (int y = y0; y <= y1; y++)
                {
                    if (!_cells.TryGetValue((x, y), out List<int>? cell))
                    {
                        _cells[(x, y)] = cell = [];
                        _order.Add((x, y));
                    }
                    cell.Add(i);
                }
            }
        }
    }

    /// <summary>Pairs (i, j), i &lt; j, whose boxes come within the gap, each once; none at all where that takes more than <see cref="MostTests"/> comparisons.</summary>
    public List<(int A, int B)> Pairs(out bool all)
    {
        var pairs = new List<(int, int)>();
        all = _order.Sum(c => (long)_cells[c].Count * (_cells[c].Count - 1) / 2) <= MostTests;
        if (!all)
        {
            return pairs;
        }
        foreach ((int x, int y) in _order)
        {
            List<int> cell = _cells[(x, y)];
            for (int a = 0; a < cell.Count; a++)
            {
                for (int b = a + 1; b < cell.Count; b++)
                {
                    if (LoopMath.Near(_boxes[cell[a]], _boxes[cell[b]], _gap) && First(cell[a], cell[b]) == (x, y))
                    {
                        pairs.Add((cell[a], cell[b]));
                    }
                }
            }
        }
        return pairs;
    }

    /// <summary>Indices whose boxes come within the gap of the point.</summary>
    public IEnumerable<int> SegmentsNear(Point2 p)
    {
        (int x, int y, _, _) = Cells(new Box2(p.X, p.Y, p.X, p.Y));
        var box = new Box2(p.X, p.Y, p.X, p.Y);
        var found = new SortedSet<int>();
        for (int i = -1; i <= 1; i++)
        {
            for (int j = -1; j <= 1; j++)
            {
                foreach (int k in _cells.GetValueOrDefault((x + i, y + j), []))
                {
                    if (LoopMath.Near(_boxes[k], box, _gap))
                    {
                        found.Add(k);
                    }
                }
            }
        }
        return found;
    }

    // A pair that shares many cells is taken in the first of them only.
    private (int, int) First(int a, int b)
    {
        (int ax, int ay, _, _) = Cells(_boxes[a]);
        (int bx, int by, _, _) = Cells(_boxes[b]);
        return (Math.Max(ax, bx), Math.Max(ay, by));
    }

    private (int X0, int Y0, int X1, int Y1) Cells(Box2 box) =>
        (
            (int)Math.Floor((box.MinX - _gap) / _cell),
            (int)Math.Floor((box.MinY - _gap) / _cell),
            (int)Math.Floor((box.MaxX + _gap) / _cell),
            (int)Math.Floor((box.MaxY + _gap) / _cell)
        );

    // About the mean segment's size, doubled until long segments do not fill more than eight cells each on the whole.
    private static double CellSize(IReadOnlyList<Box2> boxes, double gap)
    {
        if (boxes.Count == 0)
        {
            return 1;
        }
        double sum = 0;
        double reach = 0;
        foreach (Box2 b in boxes)
        {
            sum += b.Width + b.Height;
            reach = Math.Max(reach, Math.Max(Math.Abs(b.MinX) + b.Width, Math.Abs(b.MinY) + b.Height));
        }
        double cell = Math.Max(Math.Max(sum / boxes.Count, 8 * gap), Math.Max(reach * 1e-8, double.Epsilon * 1e10));
        while (Filled(boxes, cell) > 8.0 * boxes.Count)
        {
            cell *= 2;
        }
        return cell;
    }

    private static double Filled(IReadOnlyList<Box2> boxes, double cell)
    {
        double cells = 0;
        foreach (Box2 b in boxes)
        {
            cells += (1 + (b.Width / cell)) * (1 + (b.Height / cell));
        }
        return cells;
    }
}

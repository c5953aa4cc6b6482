using FixtureGen.Model;
using FixtureGen.Verify.Carving;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Holding;

/// <summary>One place where the cutter was looked at. The cells before its leading half are Count from First on in the common list.</summary>
internal readonly record struct Look
{
    /// <summary>Number of the motion's event.</summary>
    public required int Motion { get; init; }

    public required Point2 At { get; init; }

    /// <summary>Direction of travel, length 1.</summary>
    public required Point2 Ahead { get; init; }

    /// <summary>Height of the tip, mm.</summary>
    public required double Tip { get; init; }

    /// <summary>Radius of the cutter at the surface, mm.</summary>
    public required double Rim { get; init; }

    /// <summary>Feed a tooth, mm.</summary>
    public required double PerTooth { get; init; }

    public required Cutter Cutter { get; init; }

    public required int State { get; init; }

    /// <summary>How far the tool had gone by then, mm.</summary>
    public required double Way { get; init; }

    public int First { get; init; }

    public int Count { get; init; }
}

/// <summary>
/// What a cutter took at one place: Depth mm, Thin the thickest chip there over the feed a tooth, Arc what is engaged at most, and
/// Even how much of it would take as much at that thickness, radians.
/// </summary>
internal readonly record struct Taken(double Depth, double Thin, double Arc, double Even)
{
    /// <summary>Engaged from one angle round the direction of travel to another; the chip goes with the cosine.</summary>
    public static Taken Between(double depth, double thin, double from, double to, double share) =>
        new(depth, thin * share, to - from, Math.Min(to - from, (Math.Sin(to) - Math.Sin(from)) / thin));
}

/// <summary>
/// The cells before a cutter's leading half, remembered until it has gone past them: what counts is what it really took of them,
/// not what stands where it never comes.
/// </summary>
internal sealed class Looks(BlockGrid grid)
{
    /// <summary>Looks across the cutter, as shares of how wide it is looked at.</summary>
    private static readonly double[] Across = [-1, -0.8, -0.5, 0, 0.5, 0.8, 1];

    /// <summary>Where two neighbours see different things, so that many more looks between them show how wide the cut is.</summary>
    private const int Between = 4;

    /// <summary>A way that comes so far ahead of its length is straight: an arc is met by a chord.</summary>
    private const double StraightOn = 0.9;

    /// <summary>Less than this deep is no cut, mm: rounding of heights.</summary>
    public const double NoDepth = 5e-3;

    private readonly List<Look> _open = [];
    private readonly List<(int Cell, float Top, float Y)> _cells = [];
    private readonly double _past = 2 * grid.Cell;
    private Point2 _end;
    private readonly double _inset = Math.Max(0.1, 1.5 * grid.Cell);

    /// <summary>Looks before the cutter as the block stands now.</summary>
    public void Take(Look look)
    {
        int first = _cells.Count;
        double wide = Wide(look.Rim);
        double last = 0;
        for (int k = 0; k < Across.Length; k++)
        {
            double y = wide * Across[k];
            (int, float Top, float) cell = CellAt(look, y);
            if (k > 0 && cell.Top > look.Tip + NoDepth != _cells[^1].Top > look.Tip + NoDepth)
            {
                for (int i = 1; i <= Between; i++)
                {
                    _cells.Add(CellAt(look, last + ((y - last) * i / (Between + 1))));
                }
            }
            _cells.Add(cell);
            last = y;
        }
        _open.Add(look with { First = first, Count = _cells.Count - first });
    }

    private (int Cell, float Top, float Y) CellAt(in Look look, double y)
    {
        double x = Ahead(look.Rim, y) + (0.75 * grid.Cell);
        int cell = CellAt(look.At + (look.Ahead * x) + (look.Ahead.Left * y));
        return (cell, cell < 0 ? float.MinValue : grid.TopHeights.HeightAt(cell), (float)y);
    }

    /// <summary>
    /// Hands over what was taken at the looks that the cutter has gone past, in their order, once it has gone along a piece that ends
    /// at a way. <paramref name="higher"/> is added to what was raw, from <paramref name="raw"/> up.
    /// </summary>
    public void Settle(double way, Piece piece, float raw, double higher, Action<Look, Taken> told)
    {
        _end = piece.B;
        int done = 0;
        while (done < _open.Count && _open[done].Way + _past <= way)
        {
            Look look = _open[done++];
            double t = 1 - ((way - look.Way - _past) / piece.Length);
            Tell(look, piece.PointAt(Math.Clamp(t, 0, 1)), raw, higher, told);
        }
        Drop(done);
    }

    /// <summary>The same for all that are left: the cutter goes no farther.</summary>
    public void SettleAll(float raw, double higher, Action<Look, Taken> told)
    {
        foreach (Look look in _open)
        {
            Tell(look, _end, raw, higher, told);
        }
        Drop(_open.Count);
    }

    private void Drop(int done)
    {
        if (done == _open.Count)
        {
            _open.Clear();
            _cells.Clear();
        }
        else
        {
            _open.RemoveRange(0, done);
        }
    }

    /// <summary>How wide of the middle a cutter of a radius is looked at, mm: its very rim runs along walls that were cut before.</summary>
    private double Wide(double rim) => Math.Max(rim - _inset, 0.6 * rim);

    /// <summary>The part of a radius that the looks leave out to either side, mm.</summary>
    public double LeftOut(double rim) => rim - Wide(rim);

    /// <summary>
    /// A cutter that has turned off by the point it has come to takes no chip of a whole feed there: a step to the side is shorter
    /// than that.
    /// </summary>
    private void Tell(Look look, Point2 came, float raw, double higher, Action<Look, Taken> told)
    {
        double straight = Math.Clamp((came - look.At).Dot(look.Ahead) / (StraightOn * _past), 0, 1);
        double greatest = 0;
        double depth = 0;
        (int first, int last) = (-1, -1);
        for (int k = look.First; k < look.First + look.Count; k++)
        {
            (int cell, float top, float y) = _cells[k];
            if (cell < 0)
            {
                continue;
            }
            float now = grid.TopHeights.HeightAt(cell);
            bool passedBy = now >= raw && look.Tip < raw;
            double stood = top >= raw ? top + higher : top;
            double taken = passedBy ? 0 : stood - Math.Max(Math.Max(look.Tip, Math.Min(now, raw)), grid.RawBottomZ);
            if (taken <= NoDepth)
            {
                continue;
            }
            (first, last) = (first < 0 ? k : first, k);
            double share = Ahead(look.Rim, y) / look.Rim;
            if (taken * share > greatest)
            {
                (greatest, depth) = (taken * share, taken);
            }
        }
        if (first >= 0)
        {
            told(look, Taken.Between(depth, greatest / depth, Round(look, first - 1), Round(look, last + 1), straight));
        }
    }

    /// <summary>Angle of a look from the direction of travel; beside the outermost the rim itself.</summary>
    private double Round(in Look look, int k) =>
        k < look.First ? -Math.PI / 2
        : k >= look.First + look.Count ? Math.PI / 2
        : Math.Asin(_cells[k].Y / look.Rim);

    private static double Ahead(double rim, double y) => Math.Sqrt(Math.Max(0, (rim * rim) - (y * y)));

    /// <summary>The cell under a point, rows one after another; -1 beside the block.</summary>
    public int CellAt(Point2 p)
    {
        int column = (int)Math.Floor((p.X - grid.Box.MinX) / grid.Cell);
        int row = (int)Math.Floor((p.Y - grid.Box.MinY) / grid.Cell);
        return column < 0 || row < 0 || column >= grid.Columns || row >= grid.Rows ? -1 : (row * grid.Columns) + column;
    }
}

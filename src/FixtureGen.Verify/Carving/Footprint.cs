using FixtureGen.Verify.Shape;

namespace FixtureGen.Verify.Carving;

/// <summary>A run of cells in one row.</summary>
internal readonly record struct Span1(int Row, int First, int Count);

/// <summary>
/// The cells whose centres a disc covers while its own centre goes along a line or an arc: exact, each row by closed form.
/// The buffer is used again for every motion. Inside, lengths are in cells and a cell's centre has whole coordinates.
/// </summary>
internal sealed class Footprint(BlockGrid grid)
{
    private readonly double _perMm = 1 / grid.Cell;
    private readonly int _lastRow = grid.Rows - 1;
    private readonly int _lastColumn = grid.Columns - 1;
    private readonly Capsule _capsule = new(grid.Columns);
    private Span1[] _spans = new Span1[4096];

    public int Count { get; private set; }

    public ReadOnlySpan<Span1> Spans => _spans.AsSpan(0, Count);

    /// <summary>Fills the buffer. With skipStart the cells of the disc at the start, carved by the motion before, are left out.</summary>
    public void Sweep(Piece piece, double radius, bool skipStart)
    {
        Count = 0;
        if (piece.IsArc)
        {
            Sector(piece, radius, skipStart);
        }
        else
        {
            Line(piece, radius, skipStart);
        }
    }

    private double X(double mm) => ((mm - grid.Box.MinX) * _perMm) - 0.5;

    private double Y(double mm) => ((mm - grid.Box.MinY) * _perMm) - 0.5;

    private void Line(Piece line, double radius, bool skipStart)
    {
        double ay = Y(line.A.Y);
        double by = Y(line.B.Y);
        double r = radius * _perMm;
        int first = Math.Max(0, (int)Math.Ceiling(Math.Min(ay, by) - r));
        int rows = Math.Min(_lastRow, (int)Math.Floor(Math.Max(ay, by) + r)) - first + 1;
        if (rows <= 0)
        {
            return;
        }
        Reserve((2 * rows) + 1);
        _capsule.Go(X(line.A.X), ay, X(line.B.X), by, r, first, rows);
        if (!skipStart)
        {
            Add(first, _capsule.First[..rows], _capsule.Last);
            return;
        }
        Add(first, _capsule.First[..rows], _capsule.Before);
        Add(first, _capsule.After[..rows], _capsule.Last);
    }

    /// <summary>Rows from the first up, each with its own first and last cell; there is room for them.</summary>
    private void Add(int row, ReadOnlySpan<double> first, ReadOnlySpan<double> last)
    {
        Span<Span1> spans = _spans.AsSpan(Count);
        int n = 0;
        for (int i = 0; i < first.Length; i++)
        {
            int x = double.ConvertToIntegerNative<int>(first[i]);
            int count = double.ConvertToIntegerNative<int>(last[i]) - x + 1;
            spans[n] = new Span1(row + i, x, count);
            n += count > 0 ? 1 : 0;
        }
        Count += n;
    }

    private void Add(int row, double lo, double hi) =>
        AddCells(row, (int)Math.Ceiling(Math.Max(0, lo)), (int)Math.Floor(Math.Min(_lastColumn, hi)));

    private void AddCells(int row, int x0, int x1)
    {
        if (x1 >= x0)
        {
            _spans[Count++] = new Span1(row, x0, x1 - x0 + 1);
        }
    }

    private void Reserve(int rows)
    {
        if (rows > _spans.Length - Count)
        {
            Array.Resize(ref _spans, Math.Max(_spans.Length * 2, Count + rows));
        }
    }

    private void Disc(double cx, double cy, double r)
    {
        int first = Math.Max(0, (int)Math.Ceiling(cy - r));
        int last = Math.Min(_lastRow, (int)Math.Floor(cy + r));
        Reserve(last - first + 1);
        for (int y = first; y <= last; y++)
        {
            double e = y - cy;
            double q = Math.Sqrt(Math.Max(0, (r * r) - (e * e)));
            Add(y, cx - q, cx + q);
        }
    }

    /// <summary>
    /// Points within the radius of an arc: those whose direction lies in the sweep and whose distance from the centre is within
    /// the radius of the arc's own, and the discs at both ends.
    /// </summary>
    private void Sector(Piece arc, double radius, bool skipStart)
    {
        double r = radius * _perMm;
        double cx = X(arc.C.X);
        double cy = Y(arc.C.Y);
        double outer = (arc.R * _perMm) + r;
        double inner = Math.Max(0, (arc.R * _perMm) - r);
        int first = Math.Max(0, (int)Math.Ceiling(cy - outer));
        int last = Math.Min(_lastRow, (int)Math.Floor(cy + outer));
        Wedge wedge = Wedge.Of(arc);
        Reserve(4 * Math.Max(0, last - first + 1));
        for (int y = first; y <= last; y++)
        {
            double h = y - cy;
            double o = Math.Sqrt(Math.Max(0, (outer * outer) - (h * h)));
            double i2 = (inner * inner) - (h * h);
            if (i2 <= 0)
            {
                AddInWedge(y, -o, o, wedge, h, cx);
            }
            else
            {
                double i = Math.Sqrt(i2);
                AddInWedge(y, -o, -i, wedge, h, cx);
                AddInWedge(y, i, o, wedge, h, cx);
            }
        }
        if (!skipStart)
        {
            Disc(X(arc.A.X), Y(arc.A.Y), r);
        }
        Disc(X(arc.B.X), Y(arc.B.Y), r);
    }

    private void AddInWedge(int row, double lo, double hi, Wedge wedge, double h, double cx)
    {
        (double a0, double a1) = wedge.FirstSide(h);
        (double b0, double b1) = wedge.SecondSide(h);
        if (wedge.Full)
        {
            Add(row, cx + lo, cx + hi);
        }
        else if (!wedge.Wide)
        {
            Add(row, cx + Math.Max(lo, Math.Max(a0, b0)), cx + Math.Min(hi, Math.Min(a1, b1)));
        }
        else
        {
            Add(row, cx + Math.Max(lo, a0), cx + Math.Min(hi, a1));
            Add(row, cx + Math.Max(lo, b0), cx + Math.Min(hi, b1));
        }
    }
}

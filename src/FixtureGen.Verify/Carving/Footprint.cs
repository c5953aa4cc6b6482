using FixtureGen.Model;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Carving;

/// <summary>
/// The cells whose centres a disc covers while its own centre goes along a line or an arc: exact, each row by closed form.
/// The memory is used again for every motion. Inside, lengths are in cells and a cell's centre has whole coordinates.
/// </summary>
internal sealed class Footprint(BlockGrid grid)
{
    private readonly double _perMm = 1 / grid.Cell;
    private readonly int _lastRow = grid.Rows - 1;
    private readonly int _lastColumn = grid.Columns - 1;

    public Strips Strips { get; } = new(grid.Columns);

    /// <summary>Finds the cells.</summary>
    public void Sweep(Piece piece, double radius)
    {
        Strips.Clear();
        if (piece.IsArc)
        {
            Sector(piece, radius);
        }
        else
        {
            Line(piece, radius);
        }
    }

    private double X(double mm) => ((mm - grid.Box.MinX) * _perMm) - 0.5;

    private double Y(double mm) => ((mm - grid.Box.MinY) * _perMm) - 0.5;

    /// <summary>The grid's rows between two heights; none where the first is beyond the last.</summary>
    private (int First, int Last) Rows(double low, double high) =>
        ((int)Math.Ceiling(Math.Clamp(low, 0, grid.Rows)), (int)Math.Floor(Math.Clamp(high, -1, _lastRow)));

    private void Line(Piece line, double radius)
    {
        double ay = Y(line.A.Y);
        double by = Y(line.B.Y);
        double r = radius * _perMm;
        (int low, int high) = Rows(Math.Min(ay, by) - r, Math.Max(ay, by) + r);
        if (high < low)
        {
            return;
        }
        Capsule capsule = new(X(line.A.X), ay, X(line.B.X), by, r, grid.Columns);
        int strip = Strips.Take(low, high);
        (int row, int rows) = Strips.Show(strip, low, high);
        capsule.Whole(row, Strips.FirstFrom(strip, row, rows), Strips.LastFrom(strip, row, rows));
        Strips.Empty(strip, _lastRow + 1, row + rows - 1);
    }

    private void Put(int strip, int row, double lo, double hi) =>
        Strips.Put(strip, row, (int)Math.Ceiling(Math.Max(0, lo)), (int)Math.Floor(Math.Min(_lastColumn, hi)));

    private void Disc(double cx, double cy, double r)
    {
        (int low, int high) = Rows(cy - r, cy + r);
        int strip = Strips.AddEmpty(low, high);
        for (int y = low; y <= high; y++)
        {
            double e = y - cy;
            double q = Math.Sqrt(Math.Max(0, (r * r) - (e * e)));
            Put(strip, y, cx - q, cx + q);
        }
    }

    /// <summary>
    /// Points within the radius of an arc: those whose direction lies in the sweep and whose distance from the centre is within
    /// the radius of the arc's own, and the discs at both ends. Left and right of the centre go to strips of their own.
    /// </summary>
    private void Sector(Piece arc, double radius)
    {
        double r = radius * _perMm;
        double cx = X(arc.C.X);
        double cy = Y(arc.C.Y);
        double outer = (arc.R * _perMm) + r;
        double inner = Math.Max(0, (arc.R * _perMm) - r);
        Box2 bounds = arc.Bounds();
        (int low, int high) = Rows(Math.Max(Y(bounds.MinY) - r, cy - outer), Math.Min(Y(bounds.MaxY) + r, cy + outer));
        Wedge wedge = Wedge.Around(arc);
        Arm left = NewArm(low, high, wedge);
        Arm right = NewArm(low, high, wedge);
        for (int y = low; y <= high; y++)
        {
            double h = y - cy;
            double o = Math.Sqrt(Math.Max(0, (outer * outer) - (h * h)));
            double i2 = (inner * inner) - (h * h);
            if (i2 <= 0)
            {
                PutInWedge(left, y, -o, o, wedge, h, cx);
            }
            else
            {
                double i = Math.Sqrt(i2);
                PutInWedge(left, y, -o, -i, wedge, h, cx);
                PutInWedge(right, y, i, o, wedge, h, cx);
            }
        }
        Disc(X(arc.A.X), Y(arc.A.Y), r);
        Disc(X(arc.B.X), Y(arc.B.Y), r);
    }

    private Arm NewArm(int low, int high, Wedge wedge)
    {
        int strip = Strips.AddEmpty(low, high);
        return new Arm(strip, wedge.Wide && !wedge.Full ? Strips.AddEmpty(low, high) : strip);
    }

    private void PutInWedge(Arm arm, int row, double lo, double hi, Wedge wedge, double h, double cx)
    {
        if (wedge.Full)
        {
            Put(arm.First, row, cx + lo, cx + hi);
            return;
        }
        (double a0, double a1) = wedge.FirstSide(h);
        (double b0, double b1) = wedge.SecondSide(h);
        if (wedge.Wide)
        {
            Put(arm.First, row, cx + Math.Max(lo, a0), cx + Math.Min(hi, a1));
            Put(arm.Second, row, cx + Math.Max(lo, b0), cx + Math.Min(hi, b1));
        }
        else
        {
            Put(arm.First, row, cx + Math.Max(lo, Math.Max(a0, b0)), cx + Math.Min(hi, Math.Min(a1, b1)));
        }
    }

    /// <summary>The strips of one side of the centre; over half a turn each half plane has its own.</summary>
    private readonly record struct Arm(int First, int Second);
}

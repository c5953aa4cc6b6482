using FixtureGen.Model;
using FixtureGen.Verify.Carving;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Checks;

/// <summary>
/// The greatest width, mm, of a cutter's leading half that stands deeper in material than its step-down for a third of a diameter of a
/// level motion's way: a notch that is short beside its motion. Looked at while the block still stands as the motion finds it.
/// </summary>
internal sealed class SlotScan(Run run)
{
    /// <summary>Points across the cutter.</summary>
    private const int Across = 16;

    /// <summary>Looks along one motion; a diameter's sixth apart as long as these are enough.</summary>
    private const int Most = 600;

    private readonly float[] _widest = new float[run.Trace.Events.Length];

    public double Widest(int index) => _widest[index];

    /// <summary>To be called before the motion is carved.</summary>
    public void Before(int index, Motion motion, Cutter cutter)
    {
        if (!Run.IsFeed(motion) || Math.Abs(motion.To.Z - motion.From.Z) > 1e-6)
        {
            return;
        }
        double limit = run.StepDown(cutter.Tool) + JudgeRules.StepSlack;
        Piece piece = Piece.From(motion);
        int n = (int)Math.Min(piece.Length / (cutter.Tool.Diameter / 6), Most);
        if (n < 3 || run.Grid.RawTopZ - motion.To.Z <= limit)
        {
            return;
        }
        double widest = 0;
        (double one, double two) = (0, 0);
        for (int i = 1; i <= n; i++)
        {
            double width = Leading(motion, cutter, piece, (double)i / n, limit);
            widest = Math.Max(widest, Math.Min(width, Math.Min(one, two)));
            (one, two) = (two, width);
        }
        _widest[index] = (float)widest;
    }

    private double Leading(Motion motion, Cutter cutter, Piece piece, double t, double limit)
    {
        Point2 ahead = piece.Tangent(t);
        double r = cutter.Radius * (1 - (1.0 / Across));
        double tip = Math.Max(motion.To.Z, run.Grid.RawBottomZ);
        int deep = 0;
        for (int k = -Across / 2; k <= Across / 2; k++)
        {
            double y = 2 * r * k / Across;
            Point2 p = piece.PointAt(t) + (ahead * Math.Sqrt(Math.Max(0, (r * r) - (y * y)))) + (ahead.Left * y);
            deep += Stands(p) - tip > limit ? 1 : 0;
        }
        return cutter.Tool.Diameter * deep / (Across + 1);
    }

    private double Stands(Point2 p)
    {
        BlockGrid grid = run.Grid;
        int column = (int)Math.Floor((p.X - grid.Box.MinX) / grid.Cell);
        int row = (int)Math.Floor((p.Y - grid.Box.MinY) / grid.Cell);
        bool beside = column < 0 || row < 0 || column >= grid.Columns || row >= grid.Rows;
        return beside ? double.MinValue : grid.TopHeights.HeightAt(row, column);
    }
}

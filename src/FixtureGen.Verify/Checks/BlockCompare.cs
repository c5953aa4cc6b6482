using FixtureGen.Model;
using FixtureGen.Verify.Carving;
using FixtureGen.Verify.Shape;

namespace FixtureGen.Verify.Checks;

/// <summary>Depths of the design at the cells' centres, in the setup's frame.</summary>
internal static class TargetGrid
{
    public static float[] Make(AllowedShape shape, BlockGrid grid, bool engraving)
    {
        float[] target = new float[grid.Top.Length];
        Array.Fill(target, (float)grid.RawTopZ);
        Lower(target, grid, shape.Cuts.Where(c => !IsEngraving(c)));
        if (engraving)
        {
            AddEngraving(target, shape, grid);
        }
        return target;
    }

    public static void AddEngraving(float[] target, AllowedShape shape, BlockGrid grid) =>
        Lower(target, grid, shape.Cuts.Where(IsEngraving));

    public static bool IsEngraving(AllowedCut cut) => cut.Kind is FeatureKind.Label or FeatureKind.Mark;

    private static void Lower(float[] target, BlockGrid grid, IEnumerable<AllowedCut> cuts)
    {
        foreach (AllowedCut cut in cuts)
        {
            float floor = (float)Math.Max(cut.Floor, grid.RawBottomZ);
            List<Span1> spans = [];
            Raster.Spans(cut.Area, grid, (row, first, count) => spans.Add(new Span1(row, first, count)));
            Lowering lower = new(target, float.MaxValue);
            foreach (Span1 span in spans)
            {
                lower.Flat((span.Row * grid.Columns) + span.First, span.Count, floor);
            }
        }
    }
}

/// <summary>
/// The carved block against the design, cell by cell: cut too deep, and left standing. A cell whose centre lies within the
/// allowed side gouge of a wall is settled by its exact distance, so walls need no slack of a cell. Where mayStand says so
/// (bridges in the shell) nothing need be cut.
/// </summary>
internal sealed class BlockCompare(Run run, AllowedShape shape, Func<Point2, bool> mayStand)
{
    /// <summary>Cells settled one by one; of more, every n-th is looked at.</summary>
    private const int MostCells = 6000;

    /// <summary>What is left within this, mm, is no matter of reach.</summary>
    private const double Numeric = 0.01;

    private readonly Lazy<MotionIndex> _index = new(() => new MotionIndex(run));

    public double GougeDepth { get; private set; }

    public double GougeSide { get; private set; }

    public double Leftover { get; private set; }

    public void Go()
    {
        float[] target = TargetGrid.Make(shape, run.Grid, false);
        LeftStanding(target);
        Engravings();
        TargetGrid.AddEngraving(target, shape, run.Grid);
        TooDeep(target);
    }

    private void TooDeep(float[] target)
    {
        float limit = (float)run.Limits.Gouge;
        (float small, List<int> cells) = Scan(run.Grid.Top, target, limit);
        GougeDepth = small;
        SortedDictionary<int, (double Amount, Point2 At)> byLine = [];
        foreach (int cell in Thin(cells))
        {
            Point2 p = Centre(cell);
            double amount = target[cell] - run.Grid.Top[cell];
            double beside = shape.ToFree(p, run.Grid.Top[cell], run.Limits.Gouge);
            if (beside <= run.Limits.Gouge)
            {
                GougeSide = Math.Max(GougeSide, beside);
                continue;
            }
            GougeDepth = Math.Max(GougeDepth, amount);
            int line = _index.Value.FirstBelow(p, target[cell] - limit)?.Line ?? 0;
            if (!byLine.TryGetValue(line, out (double Amount, Point2 At) known) || known.Amount < amount)
            {
                byLine[line] = (amount, p);
            }
        }
        foreach ((int line, (double amount, Point2 at)) in byLine)
        {
            run.Log.Error(
                "gouge",
                line,
                $"the block is cut {amount:0.###} mm below the design at X {at.X:0.##} Y {at.Y:0.##}, {limit:0.###} mm is allowed",
                "Correct the height or the position of this motion",
                at
            );
        }
    }

    private void LeftStanding(float[] target)
    {
        float limit = (float)run.Limits.Leftover;
        (Leftover, List<int> cells) = Scan(target, run.Grid.Top, (float)Numeric);
        double least = run
            .Cutters.Values.Where(c => c.Shape != CutterShape.Cone && Used(c))
            .Select(c => c.Radius)
            .DefaultIfEmpty(0)
            .Min();
        Opening opening = new(shape, least);
        SortedDictionary<int, (double Amount, Point2 At)> byLine = [];
        foreach (int cell in Thin(cells))
        {
            Point2 p = Centre(cell);
            (double beside, Motion? nearest) = _index.Value.Beside(p, target[cell] + limit);
            double amount = Math.Min(run.Grid.Top[cell] - target[cell], Math.Max(0, beside));
            if (amount > Numeric && (mayStand(p) || !opening.Reaches(p, target[cell], Numeric)))
            {
                continue;
            }
            Leftover = Math.Max(Leftover, amount);
            int line = (nearest ?? _index.Value.Nearest(p))?.Line ?? 0;
            if (
                amount > limit
                && (!byLine.TryGetValue(line, out (double Amount, Point2 At) known) || known.Amount < amount)
            )
            {
                byLine[line] = (amount, p);
            }
        }
        foreach ((int line, (double amount, Point2 at)) in byLine)
        {
            run.Log.Error(
                "left-over",
                line,
                $"{amount:0.###} mm stand above the design at X {at.X:0.##} Y {at.Y:0.##}, {limit:0.###} mm is allowed",
                "A pass is missing, too high or too far away",
                at
            );
        }
    }

    /// <summary>An engraver leaves sloped sides; its strokes are judged along their middle, where the tip should have been.</summary>
    private void Engravings()
    {
        foreach (
            EngravingFeature feature in run.Design.Features.OfType<EngravingFeature>().Where(f => f.Setup == run.Setup)
        )
        {
            double floor = feature.TopZ - feature.Depth;
            double limit = Math.Min(run.Limits.Leftover, feature.Depth / 2);
            foreach (Piece piece in feature.Strokes.SelectMany(s => s.Segments).Select(Piece.Of))
            {
                int n = Math.Max(1, (int)Math.Ceiling(piece.Length / 0.5));
                for (int i = 0; i <= n; i++)
                {
                    Stroke(feature.Name, InFrame(piece.At((double)i / n)), floor, limit);
                }
            }
        }
    }

    private void Stroke(string name, Point2 p, double floor, double limit)
    {
        if (_index.Value.FirstBelow(p, floor + limit) is null)
        {
            Leftover = Math.Max(Leftover, limit + 1e-3);
            run.Log.Error(
                "left-over",
                _index.Value.Nearest(p)?.Line ?? 0,
                $"{name} is not engraved at X {p.X:0.##} Y {p.Y:0.##}",
                "A stroke is missing, too high or too far away",
                p
            );
        }
    }

    private Point2 InFrame(Point2 p) => run.Setup == Setup.Underside && run.Design.Flip is { } flip ? flip.Apply(p) : p;

    private bool Used(Cutter cutter) =>
        run.Motions()
            .Any(m => m.Motion.Tool == cutter.Tool.Number && Run.IsFeed(m.Motion) && Run.Low(m.Motion) < shape.Top);

    /// <summary>The greatest high - low up to the limit, and the cells beyond it.</summary>
    private static (float Small, List<int> Cells) Scan(float[] low, float[] high, float limit)
    {
        float small = 0;
        List<int> cells = [];
        for (int i = 0; i < low.Length; i++)
        {
            float d = high[i] - low[i];
            if (d > limit)
            {
                cells.Add(i);
            }
            else if (d > small)
            {
                small = d;
            }
        }
        return (small, cells);
    }

    private static IEnumerable<int> Thin(List<int> cells)
    {
        int step = 1 + (cells.Count / MostCells);
        for (int i = 0; i < cells.Count; i += step)
        {
            yield return cells[i];
        }
    }

    private Point2 Centre(int cell) =>
        new(
            run.Grid.Box.MinX + (((cell % run.Grid.Columns) + 0.5) * run.Grid.Cell),
            run.Grid.Box.MinY + (((cell / run.Grid.Columns) + 0.5) * run.Grid.Cell)
        );
}

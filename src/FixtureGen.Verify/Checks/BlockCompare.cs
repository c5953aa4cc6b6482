using FixtureGen.Model;
using FixtureGen.Verify.Carving;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Checks;

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

    public double GougeDepth { get; private set; }

    public double GougeSide { get; private set; }

    public double Leftover { get; private set; }

    public void Check()
    {
        using Heights target = TargetGrid.Make(shape, run.Grid, false);
        LeftStanding(target);
        Engravings();
        TargetGrid.AddEngraving(target, shape, run.Grid);
        TooDeep(target);
    }

    private void TooDeep(Heights target)
    {
        float limit = (float)run.Limits.Gouge;
        (float small, List<int> cells) = HeightScan.Above(run.Grid.TopHeights, target, limit);
        GougeDepth = small;
        WorstPerLine worst = new();
        foreach (int cell in Thin(cells))
        {
            Point2 p = run.Grid.Centre(cell);
            double amount = target.HeightAt(cell) - run.Grid.TopHeights.HeightAt(cell);
            double beside = shape.ToFree(p, run.Grid.TopHeights.HeightAt(cell), run.Limits.Gouge, run.Limits.Gouge);
            if (beside <= run.Limits.Gouge)
            {
                GougeSide = Math.Max(GougeSide, beside);
                continue;
            }
            GougeDepth = Math.Max(GougeDepth, amount);
            int line = run.Index.FirstBelow(p, target.HeightAt(cell) - limit)?.Line ?? 0;
            worst.Add(line, amount, p);
        }
        foreach ((int line, double amount, Point2 at) in worst.All)
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

    private void LeftStanding(Heights target)
    {
        float limit = (float)run.Limits.Leftover;
        (Leftover, List<int> cells) = HeightScan.Above(target, run.Grid.TopHeights, (float)Numeric);
        double least = run
            .Cutters.Values.Where(c => c.Shape != CutterShape.Cone && Used(c))
            .Select(c => c.Radius)
            .DefaultIfEmpty(0)
            .Min();
        Opening opening = new(shape, least);
        WorstPerLine worst = new();
        foreach (int cell in Thin(cells))
        {
            Point2 p = run.Grid.Centre(cell);
            (double beside, Motion? nearest) = run.Index.Beside(p, target.HeightAt(cell) + limit);
            double amount = Math.Min(run.Grid.TopHeights.HeightAt(cell) - target.HeightAt(cell), Math.Max(0, beside));
            if (amount > Numeric && (mayStand(p) || !opening.Reaches(p, target.HeightAt(cell), Numeric)))
            {
                continue;
            }
            Leftover = Math.Max(Leftover, amount);
            int line = (nearest ?? run.Index.Nearest(p))?.Line ?? 0;
            if (amount > limit)
            {
                worst.Add(line, amount, p);
            }
        }
        foreach ((int line, double amount, Point2 at) in worst.All)
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
            double floor =
                run.Setup == Setup.Underside ? run.Design.RawThickness - feature.TopZ : feature.TopZ - feature.Depth;
            double limit = Math.Min(run.Limits.Leftover, feature.Depth / 2);
            foreach (Piece piece in feature.Strokes.SelectMany(s => s.Segments).Select(Piece.From))
            {
                int n = Math.Max(1, (int)Math.Ceiling(piece.Length / 0.5));
                for (int i = 0; i <= n; i++)
                {
                    Stroke(feature.Name, InFrame(piece.PointAt((double)i / n)), floor, limit);
                }
            }
        }
    }

    private void Stroke(string name, Point2 p, double floor, double limit)
    {
        if (run.Index.FirstBelow(p, floor + limit) is null)
        {
            Leftover = Math.Max(Leftover, limit + 1e-3);
            run.Log.Error(
                "left-over",
                run.Index.Nearest(p)?.Line ?? 0,
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

    private static IEnumerable<int> Thin(List<int> cells)
    {
        int step = 1 + (cells.Count / MostCells);
        for (int i = 0; i < cells.Count; i += step)
        {
            yield return cells[i];
        }
    }
}

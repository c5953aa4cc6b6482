using FixtureGen.Model;
using FixtureGen.Verify.Carving;
using FixtureGen.Verify.Facts;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Finished;

/// <summary>
/// The carved block against the design, cell by cell: cut too deep, and left standing. A cell whose centre lies within the
/// allowed side gouge of a wall is settled by its exact distance, so walls need no slack of a cell. Where mayStand says so
/// (bridges in the shell) nothing need be cut. Every cell counts for the amounts; where very many are off, which line is to blame is asked
/// once for each tile of them.
/// </summary>
internal sealed class BlockCompare(Run run, AllowedShape shape, Func<Point2, bool> mayStand)
{
    /// <summary>So many cells get their line one by one; of more, the worst of a tile speaks for it.</summary>
    private const int MostCells = 60_000;

    /// <summary>So many tiles get a line.</summary>
    private const int MostTiles = 6000;

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
        Dictionary<int, (double Amount, int Cell)> tiles = [];
        foreach (int cell in cells)
        {
            float top = run.Grid.TopHeights.HeightAt(cell);
            double amount = target.HeightAt(cell) - top;
            if (MayBeBeside(target, cell, top + limit))
            {
                double beside = shape.ToFree(run.Grid.Centre(cell), top, run.Limits.Gouge, run.Limits.Gouge);
                if (beside <= run.Limits.Gouge)
                {
                    GougeSide = Math.Max(GougeSide, beside);
                    continue;
                }
            }
            GougeDepth = Math.Max(GougeDepth, amount);
            int tile = TileOf(cell);
            if (!tiles.TryGetValue(tile, out (double Amount, int) known) || known.Amount < amount)
            {
                tiles[tile] = (amount, cell);
            }
        }
        WorstPerLine worst = new();
        foreach ((double amount, int cell) in tiles.Values.OrderByDescending(t => t.Amount).Take(MostTiles))
        {
            Point2 p = run.Grid.Centre(cell);
            worst.Add(run.Index.FirstBelow(p, target.HeightAt(cell) - limit)?.Line ?? 0, amount, p);
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
        (Leftover, List<int> cells) = HeightScan.Above(target, run.Grid.TopHeights, (float)Numeric);
        double least = run
            .Cutters.Values.Where(c => c.Shape != CutterShape.Cone && Used(c))
            .Select(c => c.Radius)
            .DefaultIfEmpty(0)
            .Min();
        Opening opening = new(shape, least);
        WorstPerLine worst = new();
        int asked = 0;
        IEnumerable<IGrouping<int, int>> tiles = cells
            .GroupBy(TileOf)
            .OrderByDescending(t => t.Max(c => Above(target, c)));
        foreach (IGrouping<int, int> tile in tiles)
        {
            // the greatest amount stays true: a tile that is passed over stands no higher than what was found
            IEnumerable<int> some =
                asked <= MostCells || tile.Max(c => Above(target, c)) > Leftover
                    ? tile
                    : [tile.MaxBy(c => Above(target, c))];
            foreach (int cell in some)
            {
                asked++;
                Standing(target, cell, opening, mayStand, worst);
            }
        }
        foreach ((int line, double amount, Point2 at) in worst.All)
        {
            run.Log.Error(
                "left-over",
                line,
                $"{amount:0.###} mm stand above the design at X {at.X:0.##} Y {at.Y:0.##}, {Allowed(target, at):0.###} mm is allowed",
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

    private double Above(Heights target, int cell) => run.Grid.TopHeights.HeightAt(cell) - target.HeightAt(cell);

    private void Standing(Heights target, int cell, Opening opening, Func<Point2, bool> mayStand, WorstPerLine worst)
    {
        Point2 p = run.Grid.Centre(cell);
        double floor = target.HeightAt(cell);
        (double beside, Motion? nearest) = run.Index.Beside(p, floor + run.Limits.Leftover);
        // a floor that a cutter did go over stands as high as that cutter left it
        double amount = Math.Max(0, Math.Min(Above(target, cell), beside > 0 ? beside : run.Index.Lowest(p) - floor));
        if (amount > Numeric && (mayStand(p) || !opening.Reaches(p, floor, Numeric)))
        {
            return;
        }
        Leftover = Math.Max(Leftover, amount);
        if (amount > Numeric && amount > Allowed(target, p))
        {
            worst.Add((nearest ?? run.Index.Nearest(p))?.Line ?? 0, amount, p);
        }
    }

    /// <summary>What may stand there: what the fit of the cut bears that has this floor, and never more than the judge's limit.</summary>
    private double Allowed(Heights target, Point2 at)
    {
        int column = Math.Clamp((int)((at.X - run.Grid.Box.MinX) / run.Grid.Cell), 0, run.Grid.Columns - 1);
        int row = Math.Clamp((int)((at.Y - run.Grid.Box.MinY) / run.Grid.Cell), 0, run.Grid.Rows - 1);
        double floor = target.HeightAt(row, column);
        return shape
            .Cuts.Where(c => Math.Abs(c.Floor - floor) < Numeric && c.Area.Contains(at))
            .Select(c => Fits.Floor(run.Job, c.Kind))
            .Append(run.Limits.Leftover)
            .Min();
    }

    /// <summary>
    /// Whether a cell may lie within the allowed gouge of where cutting down to z is free. What a cutter of more than a cell's width
    /// may take reaches one of the eight cells round it then.
    /// </summary>
    private bool MayBeBeside(Heights target, int cell, float z)
    {
        (int row, int column) = Math.DivRem(cell, run.Grid.Columns);
        if (row == 0 || column == 0 || row == run.Grid.Rows - 1 || column == run.Grid.Columns - 1)
        {
            return true;
        }
        for (int r = row - 1; r <= row + 1; r++)
        {
            for (int c = column - 1; c <= column + 1; c++)
            {
                if (target.HeightAt(r, c) <= z)
                {
                    return true;
                }
            }
        }
        return false;
    }

    private int TileOf(int cell)
    {
        (int row, int column) = Math.DivRem(cell, run.Grid.Columns);
        return run.Grid.TopHeights.TileAt(row) + (column / Heights.Tile);
    }
}

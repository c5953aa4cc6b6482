using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Verify.Shape;

/// <summary>One region that may be taken away down to Floor, in the frame of the setup that cuts it.</summary>
internal sealed record AllowedCut(Area Area, double Floor, FeatureKind Kind);

/// <summary>
/// What one setup may take from the block (or the trim from the shell), in its own frame: the design's removals of that setup, turned over with the block
/// for the underside. Floors are the distinct depths, deepest first; Walls(k) bounds what may be cut at or above Floors[k].
/// </summary>
internal sealed class AllowedShape
{
    /// <summary>How far beside a boundary both sides are looked at, mm; thinner slivers between areas are no wall.</summary>
    private const double Probe = 1e-4;

    private readonly Box2 _block;
    private readonly Dictionary<int, PieceBins> _walls = [];

    private AllowedShape(Box2 block, double top, ImmutableArray<AllowedCut> cuts)
    {
        _block = block;
        Top = top;
        Cuts = cuts;
        Floors = [.. Cuts.Select(c => c.Floor).Distinct().Order()];
    }

    /// <summary>What the design lets a setup take from the block.</summary>
    public static AllowedShape OfBlock(FixtureDesign design, Setup setup) =>
        new(
            BlockBox(design, setup),
            design.RawThickness,
            [
                .. design
                    .Removals.Where(r => r.Setup == setup)
                    .SelectMany(r =>
                        r.Area.Select(a => new AllowedCut(
                            ToFrame(a, design.Flip, setup),
                            setup == Setup.Underside ? design.RawThickness - r.TopZ : r.FloorZ,
                            r.Kind
                        ))
                    ),
            ]
        );

    /// <summary>What the trim may take from a shell that covers the whole blank: the sweeps of the trim cuts and of the drills, nothing else.</summary>
    public static AllowedShape OfShell(FixtureDesign design, Job job) =>
        new(
            design.Placement.BlankBox,
            design.FixtureHeight + job.Shell.Thickness,
            [
                .. design.TrimCuts.SelectMany(c =>
                    c.Sweep.Select(r => new AllowedCut(new Area(r), c.FloorZ, FeatureKind.CutoutRelief))
                ),
                .. design.DrilledHoles.Select(h => new AllowedCut(
                    new Area(h.Sweep),
                    h.FloorZ,
                    FeatureKind.CutoutRelief
                )),
            ]
        );

    public double Top { get; }

    public ImmutableArray<AllowedCut> Cuts { get; }

    public ImmutableArray<double> Floors { get; }

    /// <summary>The raw block in the setup's frame.</summary>
    public static Box2 BlockBox(FixtureDesign design, Setup setup)
    {
        Box2 b = design.Placement.BlankBox;
        return setup == Setup.Underside && design.Flip is { } flip
            ? new Box2((2 * flip.AxisX) - b.MaxX, b.MinY, (2 * flip.AxisX) - b.MinX, b.MaxY)
            : b;
    }

    /// <summary>Whether a point may be cut at height z (a floor within slack above z counts). Outside the block all is free.</summary>
    public bool Free(Point2 p, double z, double slack)
    {
        if (!InBlock(p))
        {
            return true;
        }
        foreach (AllowedCut cut in Cuts)
        {
            if (cut.Floor <= z + slack && cut.Area.Contains(p))
            {
                return true;
            }
        }
        return false;
    }

    /// <summary>The highest of the floors that are no higher than z; -1 when all are.</summary>
    public int Level(double z)
    {
        int level = -1;
        while (level + 1 < Floors.Length && Floors[level + 1] <= z)
        {
            level++;
        }
        return level;
    }

    /// <summary>
    /// Distance from p to where cutting at height z (a floor within slack above it counts) is free, mm; 0 when it is free there,
    /// infinite beyond reach.
    /// </summary>
    public double ToFree(Point2 p, double z, double slack, double reach)
    {
        int level = Level(z + slack);
        double edge = Math.Min(
            Math.Min(p.X - _block.MinX, _block.MaxX - p.X),
            Math.Min(p.Y - _block.MinY, _block.MaxY - p.Y)
        );
        double wall = level < 0 ? double.PositiveInfinity : Walls(level).Nearest(p, reach).Distance;
        return Free(p, z, slack) ? 0 : Math.Min(edge, wall);
    }

    /// <summary>The true walls of everything that may be cut down to Floors[level] or deeper: boundaries with block material on one side.</summary>
    public PieceBins Walls(int level)
    {
        if (!_walls.TryGetValue(level, out PieceBins? bins))
        {
            bins = new PieceBins(BuildWalls(level), 4);
            _walls.Add(level, bins);
        }
        return bins;
    }

    private static Area ToFrame(Region region, Flip? flip, Setup setup)
    {
        if (setup != Setup.Underside || flip is not { } f)
        {
            return new Area(region);
        }
        Piece Turn(Segment s) =>
            s.IsArc
                ? Piece.Arc(f.Apply(s.Start), f.Apply(s.End), f.Apply(s.Centre), -s.Sweep)
                : Piece.Line(f.Apply(s.Start), f.Apply(s.End));
        return new Area([.. region.Contours.SelectMany(c => c.Segments).Select(Turn).Where(p => p.Length > 0)]);
    }

    private bool InBlock(Point2 p) => p.X > _block.MinX && p.X < _block.MaxX && p.Y > _block.MinY && p.Y < _block.MaxY;

    private ImmutableArray<Piece> BuildWalls(int level)
    {
        AllowedCut[] cuts = [.. Cuts.Where(c => c.Floor <= Floors[level])];
        ImmutableArray<Piece> all = [.. cuts.SelectMany(c => c.Area.Pieces), .. Edges(_block)];
        PieceBins bins = new(all, 4);
        ImmutableArray<Piece>.Builder walls = ImmutableArray.CreateBuilder<Piece>();
        List<int> near = [];
        List<double> cutAt = [];
        for (int i = 0; i < all.Length; i++)
        {
            cutAt.Clear();
            near.Clear();
            bins.Near(all[i].Bounds(), 1e-6, near);
            foreach (int k in near)
            {
                if (k != i)
                {
                    SplitBy(all[i], all[k], cutAt);
                }
            }
            Keep(all[i], cutAt, cuts, walls);
        }
        return walls.ToImmutable();
    }

    private static void SplitBy(Piece piece, Piece other, List<double> cutAt)
    {
        Span<(double S, double T)> crossings = stackalloc (double, double)[Crossings.Most];
        foreach ((double s, _) in crossings[..Crossings.Find(piece, other, crossings)])
        {
            cutAt.Add(s);
        }
        foreach (Point2 end in (ReadOnlySpan<Point2>)[other.A, other.B])
        {
            double t = Distance.Nearest(piece, end);
            if (t is > 0 and < 1 && piece.PointAt(t).DistanceTo(end) < 1e-5)
            {
                cutAt.Add(t);
            }
        }
    }

    private void Keep(Piece piece, List<double> cutAt, AllowedCut[] cuts, ImmutableArray<Piece>.Builder walls)
    {
        cutAt.Add(1);
        cutAt.Sort();
        double from = 0;
        foreach (double to in cutAt)
        {
            if ((to - from) * piece.Length < 1e-7)
            {
                continue;
            }
            double mid = (from + to) / 2;
            Point2 side = piece.Tangent(mid).Left * Probe;
            bool left = FreeAt(piece.PointAt(mid) + side, cuts);
            bool right = FreeAt(piece.PointAt(mid) - side, cuts);
            if (!(left && right))
            {
                walls.Add(piece.Part(from, to));
            }
            from = to;
        }
    }

    private bool FreeAt(Point2 p, AllowedCut[] cuts) => !InBlock(p) || Array.Exists(cuts, c => c.Area.Contains(p));

    private static IEnumerable<Piece> Edges(Box2 b)
    {
        Point2[] p = [new(b.MinX, b.MinY), new(b.MaxX, b.MinY), new(b.MaxX, b.MaxY), new(b.MinX, b.MaxY)];
        return Enumerable.Range(0, 4).Select(i => Piece.Line(p[i], p[(i + 1) % 4]));
    }
}

using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Verify.Shape;

/// <summary>One region as loose pieces with their box; inside is decided by the count of crossings of a ray.</summary>
internal sealed class Area
{
    private const int Buckets = 64;
    private readonly double _bucketHeight;
    private int[][]? _bucket;

    public Area(Region region)
        : this([.. region.Contours.SelectMany(c => c.Segments).Select(Piece.From).Where(p => p.Length > 0)]) { }

    public Area(ImmutableArray<Piece> pieces)
    {
        Pieces = pieces;
        Bounds = BoundsOf(pieces);
        _bucketHeight = Math.Max(Bounds.Height / Buckets, 1e-9);
    }

    public ImmutableArray<Piece> Pieces { get; }

    public Box2 Bounds { get; }

    public static Box2 BoundsOf(IReadOnlyList<Piece> pieces)
    {
        if (pieces.Count == 0)
        {
            return new Box2(0, 0, -1, -1);
        }
        Box2 all = pieces[0].Bounds();
        foreach (Piece piece in pieces)
        {
            Box2 b = piece.Bounds();
            all = new Box2(
                Math.Min(all.MinX, b.MinX),
                Math.Min(all.MinY, b.MinY),
                Math.Max(all.MaxX, b.MaxX),
                Math.Max(all.MaxY, b.MaxY)
            );
        }
        return all;
    }

    public bool Contains(Point2 p)
    {
        if (p.X < Bounds.MinX || p.X > Bounds.MaxX || p.Y < Bounds.MinY || p.Y > Bounds.MaxY)
        {
            return false;
        }
        Span<double> x = stackalloc double[4];
        int right = 0;
        foreach (int i in (_bucket ??= Sort())[BucketOf(p.Y)])
        {
            int n = Scan.Cross(Pieces[i], p.Y, x);
            for (int k = 0; k < n; k++)
            {
                right += x[k] > p.X ? 1 : 0;
            }
        }
        return (right & 1) == 1;
    }

    /// <summary>The pieces by height, made when a point is first asked for.</summary>
    private int[][] Sort()
    {
        List<int>[] lists = [.. Enumerable.Range(0, Buckets).Select(_ => new List<int>())];
        for (int i = 0; i < Pieces.Length; i++)
        {
            Box2 b = Pieces[i].Bounds();
            for (int k = BucketOf(b.MinY); k <= BucketOf(b.MaxY); k++)
            {
                lists[k].Add(i);
            }
        }
        return [.. lists.Select(l => l.ToArray())];
    }

    private int BucketOf(double y) => Math.Clamp((int)((y - Bounds.MinY) / _bucketHeight), 0, Buckets - 1);
}

using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Verify.Shape;

/// <summary>Pieces sorted into square bins, so that those near a place are found without looking at all.</summary>
internal sealed class PieceBins
{
    private readonly double _size;
    private readonly Box2 _box;
    private readonly int _columns;
    private readonly int _rows;
    private readonly List<int>?[] _bins;
    private readonly int[] _seen;
    private readonly List<int> _near = [];
    private int _stamp;

    public PieceBins(ImmutableArray<Piece> pieces, double size)
    {
        Pieces = pieces;
        _size = size;
        _box = Area.BoundsOf(pieces);
        _columns = Math.Max(1, (int)Math.Ceiling(_box.Width / size));
        _rows = Math.Max(1, (int)Math.Ceiling(_box.Height / size));
        _bins = new List<int>?[_columns * _rows];
        _seen = new int[pieces.Length];
        for (int i = 0; i < pieces.Length; i++)
        {
            Box2 b = pieces[i].Bounds();
            for (int y = Row(b.MinY); y <= Row(b.MaxY); y++)
            {
                for (int x = Column(b.MinX); x <= Column(b.MaxX); x++)
                {
                    (_bins[(y * _columns) + x] ??= []).Add(i);
                }
            }
        }
    }

    public ImmutableArray<Piece> Pieces { get; }

    /// <summary>Appends the numbers of all pieces whose box may come within reach of the box; each once.</summary>
    public void Near(Box2 box, double reach, List<int> found)
    {
        if (
            Pieces.IsEmpty
            || box.MaxX + reach < _box.MinX
            || box.MinX - reach > _box.MaxX
            || box.MaxY + reach < _box.MinY
            || box.MinY - reach > _box.MaxY
        )
        {
            return;
        }
        _stamp++;
        for (int y = Row(box.MinY - reach); y <= Row(box.MaxY + reach); y++)
        {
            for (int x = Column(box.MinX - reach); x <= Column(box.MaxX + reach); x++)
            {
                foreach (int i in _bins[(y * _columns) + x] ?? [])
                {
                    if (_seen[i] != _stamp)
                    {
                        _seen[i] = _stamp;
                        found.Add(i);
                    }
                }
            }
        }
    }

    /// <summary>The nearest point of all pieces that come within reach of p, and its distance; infinite where none does.</summary>
    public (double Distance, Point2 At) Nearest(Point2 p, double reach)
    {
        _near.Clear();
        Near(new Box2(p.X, p.Y, p.X, p.Y), reach, _near);
        double best = double.PositiveInfinity;
        Point2 at = default;
        foreach (int i in _near)
        {
            Point2 q = Pieces[i].PointAt(Distance.Nearest(Pieces[i], p));
            double d = q.DistanceTo(p);
            if (d < best)
            {
                best = d;
                at = q;
            }
        }
        return (best, at);
    }

    private int Column(double x) => Math.Clamp((int)((x - _box.MinX) / _size), 0, _columns - 1);

    private int Row(double y) => Math.Clamp((int)((y - _box.MinY) / _size), 0, _rows - 1);
}

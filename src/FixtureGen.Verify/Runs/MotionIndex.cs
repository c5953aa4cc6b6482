using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Verify.Carving;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Runs;

/// <summary>
/// Motions below the stock's top, found by place: which of them could have cut at a point, and which came nearest. The looks of one
/// program are bounded: beyond them nothing is found, so that what stands or was cut is told in full without a line.
/// </summary>
internal sealed class MotionIndex
{
    private const double Size = 5;

    /// <summary>Motions looked at for all questions together.</summary>
    private const int MostLooks = 40_000_000;

    private static readonly List<int> None = [];

    private int _looks = MostLooks;
    private readonly Box2 _box;
    private readonly int _columns;
    private readonly int _rows;
    private readonly List<int>?[] _bins;
    private readonly ImmutableArray<(Motion Motion, Piece Piece, Cutter Cutter)> _motions;

    public MotionIndex(Run run)
    {
        _motions =
        [
            .. run.Motions()
                .Where(m => Run.Low(m.Motion) < run.StockTop)
                .Select(m => (m.Motion, Cutter: run.CutterOf(m.Motion)))
                .Where(m => m.Cutter is not null)
                .Select(m => (m.Motion, Piece.From(m.Motion), m.Cutter!)),
        ];
        Box2 b = run.Blank;
        _box = new Box2(b.MinX - Size, b.MinY - Size, b.MaxX + Size, b.MaxY + Size);
        _columns = (int)Math.Ceiling(_box.Width / Size);
        _rows = (int)Math.Ceiling(_box.Height / Size);
        _bins = new List<int>?[_columns * _rows];
        for (int i = 0; i < _motions.Length; i++)
        {
            Box2 p = _motions[i].Piece.Bounds();
            double r = _motions[i].Cutter.Radius + 0.5;
            for (int y = Row(p.MinY - r); y <= Row(p.MaxY + r); y++)
            {
                for (int x = Column(p.MinX - r); x <= Column(p.MaxX + r); x++)
                {
                    if (Reaches(i, x, y, r))
                    {
                        (_bins[(y * _columns) + x] ??= []).Add(i);
                    }
                }
            }
        }
    }

    /// <summary>Whether the motion, r wide, comes into a bin's round; in the outer bins, which stand for all beyond them, always.</summary>
    private bool Reaches(int motion, int x, int y, double r)
    {
        Point2 middle = new(_box.MinX + ((x + 0.5) * Size), _box.MinY + ((y + 0.5) * Size));
        bool outer = x == 0 || y == 0 || x == _columns - 1 || y == _rows - 1;
        return outer || Distance.To(_motions[motion].Piece, middle) <= r + (Size * 0.7072);
    }

    /// <summary>The first motion whose cutter goes below z at p; null when none does.</summary>
    public Motion? FirstBelow(Point2 p, double z)
    {
        foreach (int i in BinOf(p))
        {
            if (_looks-- <= 0)
            {
                break;
            }
            if (Surface(i, p) < z)
            {
                return _motions[i].Motion;
            }
        }
        return null;
    }

    /// <summary>
    /// How far sideways p lies outside everything that was cut down to z or deeper, mm (negative inside), and the motion that
    /// came nearest; of motions within half a millimetre and the bin only.
    /// </summary>
    public (double Beside, Motion? Nearest) Beside(Point2 p, double z)
    {
        double best = double.MaxValue;
        Motion? nearest = null;
        foreach (int i in BinOf(p))
        {
            if (_looks-- <= 0)
            {
                return (double.MaxValue, null);
            }
            (Motion motion, Piece piece, Cutter cutter) = _motions[i];
            double t = Distance.Nearest(piece, p);
            double tip = motion.From.Z + ((motion.To.Z - motion.From.Z) * t);
            if (piece.Length < 1e-9)
            {
                tip = Run.Low(motion);
            }
            double radius = cutter.RadiusAt(z - tip);
            double beside = piece.PointAt(t).DistanceTo(p) - radius;
            if (tip <= z && beside < best)
            {
                best = beside;
                nearest = motion;
            }
        }
        return (best, nearest);
    }

    /// <summary>The height that all motions leave at p, mm; double.MaxValue where none goes over it.</summary>
    public double Lowest(Point2 p)
    {
        double lowest = double.MaxValue;
        foreach (int i in BinOf(p))
        {
            lowest = Math.Min(lowest, Surface(i, p));
        }
        return lowest;
    }

    /// <summary>The motion that passes nearest to p at whatever height, for want of a better culprit.</summary>
    public Motion? Nearest(Point2 p)
    {
        double best = double.MaxValue;
        Motion? nearest = null;
        foreach ((Motion motion, Piece piece, Cutter cutter) in _motions)
        {
            if (_looks-- <= 0)
            {
                return null;
            }
            double d = Distance.To(piece, p) - cutter.Radius;
            if (d < best)
            {
                best = d;
                nearest = motion;
            }
        }
        return nearest;
    }

    /// <summary>Lowest height of the cutter's surface at p along motion i; of a ball or a cone on a slope, a height that it does not go below.</summary>
    private double Surface(int i, Point2 p)
    {
        (Motion motion, Piece piece, Cutter cutter) = _motions[i];
        double t = Distance.Nearest(piece, p);
        double d = piece.PointAt(t).DistanceTo(p);
        if (d > cutter.Radius + 1e-9)
        {
            return double.MaxValue;
        }
        bool level = Math.Abs(motion.From.Z - motion.To.Z) < 1e-9;
        double z = level
            ? motion.From.Z
            : Run.Low(motion) + (piece.Length < 1e-9 ? 0 : LowestOver(motion, piece, p, cutter.Radius));
        return z + cutter.HeightAt(d);
    }

    /// <summary>How far above its lowest end the tip of a ramp or helix is when its disc last covers the point, mm.</summary>
    private static double LowestOver(Motion motion, Piece piece, Point2 p, double radius)
    {
        bool down = motion.To.Z < motion.From.Z;
        (double middle, double half) = Covered(piece, p, radius);
        double turn = piece.IsArc ? 2 * Math.PI / Math.Abs(piece.Sweep) : 0;
        double lowest = down ? 0 : 1;
        for (int k = -1; k <= 1; k++)
        {
            double from = Math.Max(0, middle - half + (k * turn));
            double to = Math.Min(1, middle + half + (k * turn));
            if (from <= to)
            {
                lowest = down ? Math.Max(lowest, to) : Math.Min(lowest, from);
            }
        }
        return Math.Abs(motion.To.Z - motion.From.Z) * (down ? 1 - lowest : lowest);
    }

    /// <summary>
    /// The stretch of the piece, as its middle and half in parameters, on which a disc covers the point: on a line between the ends of
    /// a chord, on an arc within acos((d2 + R2 - r2) / 2dR) of the point's own direction; before 0 and behind 1 the piece runs on.
    /// </summary>
    private static (double Middle, double Half) Covered(Piece piece, Point2 p, double radius)
    {
        if (!piece.IsArc)
        {
            Point2 along = piece.Tangent(0);
            double beside = along.Cross(p - piece.A);
            double chord = Math.Sqrt(Math.Max(0, (radius * radius) - (beside * beside)));
            return ((p - piece.A).Dot(along) / piece.Length, chord / piece.Length);
        }
        double d = Math.Max(p.DistanceTo(piece.C), 1e-9);
        double cos = ((d * d) + (piece.R * piece.R) - (radius * radius)) / (2 * d * piece.R);
        return (piece.TurnTo(p), Math.Acos(Math.Clamp(cos, -1, 1)) / Math.Abs(piece.Sweep));
    }

    private List<int> BinOf(Point2 p) => _bins[(Row(p.Y) * _columns) + Column(p.X)] ?? None;

    private int Column(double x) => Math.Clamp((int)((x - _box.MinX) / Size), 0, _columns - 1);

    private int Row(double y) => Math.Clamp((int)((y - _box.MinY) / Size), 0, _rows - 1);
}

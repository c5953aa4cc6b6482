using FixtureGen.Model;
using FixtureGen.Verify.Carving;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Finished;

/// <summary>
/// Side gouge, exactly: how far the cutter's envelope passes the design's walls. A grid is blind below half a cell; this is the
/// distance in closed form between the tip's path and each wall that still stands at the cutter's height.
/// </summary>
internal sealed class WallCheck(Run run, AllowedShape shape)
{
    private readonly List<int> _near = [];

    /// <summary>The deepest cut into a wall, mm; findings are written for every motion beyond the limit.</summary>
    public double Check()
    {
        double worst = 0;
        foreach ((_, _, Motion motion) in run.Motions())
        {
            if (Run.Low(motion) >= shape.Top || run.CutterOf(motion) is not { } cutter || run.IsMark(motion, cutter))
            {
                continue;
            }
            (double bite, Point2 where) = Bite(motion, cutter);
            worst = Math.Max(worst, bite);
            if (bite > run.Limits.Gouge)
            {
                run.Log.Error(
                    "gouge-side",
                    motion.Line,
                    $"the cutter goes {bite:0.0000} mm into a wall at X {where.X:0.###} Y {where.Y:0.###}, {run.Limits.Gouge:0.###} mm is allowed",
                    "Correct the position, the arc's centre or the tool",
                    where
                );
            }
        }
        return worst;
    }

    /// <summary>How far one motion passes the walls, mm, and where.</summary>
    public (double Depth, Point2 Where) Bite(Motion motion, Cutter cutter)
    {
        Piece piece = Piece.From(motion);
        double low = Math.Max(Run.Low(motion), 0);
        double worst = 0;
        Point2 where = default;
        int highest = shape.Level(Math.Max(motion.From.Z, motion.To.Z) - 1e-6);
        for (int level = shape.Level(low + run.Limits.Gouge); level < shape.Floors.Length; level++)
        {
            double top = level + 1 < shape.Floors.Length ? shape.Floors[level + 1] : shape.Top;
            double radius = level < 0 ? 0 : cutter.RadiusAt(top - Run.Low(motion));
            if (level >= 0 && radius > 0)
            {
                Walls(motion, piece, level, radius, cutter, ref worst, ref where);
            }
            if (radius >= cutter.Radius - 1e-9 && level >= highest)
            {
                break;
            }
        }
        return (worst, where);
    }

    private void Walls(
        Motion motion,
        Piece piece,
        int level,
        double radius,
        Cutter cutter,
        ref double worst,
        ref Point2 where
    )
    {
        PieceBins walls = shape.Walls(level);
        _near.Clear();
        walls.Near(piece.Bounds(), radius, _near);
        bool ramps = Math.Abs(motion.To.Z - motion.From.Z) > 1e-9 && piece.Length > 1e-9;
        foreach (int i in _near)
        {
            Piece wall = walls.Pieces[i];
            (double d, double s, double t) = Distance.Between(piece, wall);
            double bite = radius - d;
            if (bite <= Math.Max(worst, 1e-9))
            {
                continue;
            }
            if (ramps)
            {
                bite = Math.Min(bite, OnRamp(motion, piece, wall, level, radius, cutter, s));
            }
            if (bite > worst)
            {
                worst = bite;
                where = wall.PointAt(t);
            }
        }
    }

    /// <summary>
    /// On a ramp only the stretch whose tip is below the wall's foot can cut that wall: the bite is looked at there alone, where
    /// the tip is lower than the next floor.
    /// </summary>
    private double OnRamp(Motion motion, Piece piece, Piece wall, int level, double radius, Cutter cutter, double s)
    {
        double next = level + 1 < shape.Floors.Length ? shape.Floors[level + 1] : shape.Top;
        double limit = next - run.Limits.Gouge;
        double dz = motion.To.Z - motion.From.Z;
        double tip = motion.From.Z + (dz * s);
        if (tip < limit || cutter.Shape != CutterShape.Flat)
        {
            return radius;
        }
        double cross = (limit - motion.From.Z) / dz;
        if (cross is < 0 or > 1)
        {
            return 0;
        }
        Piece below = dz < 0 ? piece.Part(cross, 1) : piece.Part(0, cross);
        return radius - Distance.Between(below, wall).Distance;
    }
}

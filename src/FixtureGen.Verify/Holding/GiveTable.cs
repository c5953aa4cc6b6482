using FixtureGen.Model;

namespace FixtureGen.Verify.Holding;

/// <summary>
/// How little force of one pattern, at a place and in a direction, makes something give way that may be held in any of several ways
/// (the worst counts). Give is 1 over that force, per N: under a force F the multiplier is 1 / (F Give).
/// </summary>
internal sealed class GiveTable
{
    /// <summary>Squares of the table to a side, and directions round the compass.</summary>
    private const int Squares = 6;
    private const int Directions = 16;
    private const double Sector = 2 * Math.PI / Directions;

    /// <summary>Radial over tangential force: 113.5/243.8 of aluminium 6061-T6 rounded up (doi 10.1186/s10033-021-00536-9, table 5).</summary>
    private const double RadialShare = 0.5;

    /// <summary>The chip is too thin to matter farther round than this from the direction of travel, radians.</summary>
    private const double Widest = 1.2;

    private const double AngleStep = 0.1;
    private const double SameAngle = 0.02;

    private readonly Held[] _ways;
    private readonly CutPattern _pattern;
    private readonly Box2 _box;
    private readonly double[] _nodes = new double[(Squares + 1) * (Squares + 1) * Directions];
    private readonly Twist[] _last;

    /// <summary>Places within the box, mm, are answered; those beside it as at its edge.</summary>
    public GiveTable(Held[] ways, CutPattern pattern, Box2 box)
    {
        (_ways, _pattern) = (ways, pattern);
        _box = new Box2(box.MinX, box.MinY, Math.Max(box.MaxX, box.MinX + 1), Math.Max(box.MaxY, box.MinY + 1));
        _last = new Twist[ways.Length];
        Array.Fill(_nodes, double.NaN);
    }

    /// <summary>
    /// Never below <see cref="Exact"/>, from a table that is filled where it is asked. Give is the greatest of functions that are linear
    /// in the place and in the force (one for each way of sliding or tipping), so it is convex in both: what is put together of the
    /// corners round a place, and of the two directions beside one, is no less than it.
    /// </summary>
    public double Bound(Point2 at, double angle)
    {
        double x = Math.Clamp((at.X - _box.MinX) / _box.Width, 0, 1) * Squares;
        double y = Math.Clamp((at.Y - _box.MinY) / _box.Height, 0, 1) * Squares;
        int column = Math.Min((int)x, Squares - 1);
        int row = Math.Min((int)y, Squares - 1);
        if (_pattern.Kind == CutKind.Plunge)
        {
            return Between(column, row, x - column, y - row, 0);
        }
        double turn = angle - (Math.Floor(angle / (2 * Math.PI)) * 2 * Math.PI);
        int k = Math.Min((int)(turn / Sector), Directions - 1);
        double past = turn - (k * Sector);
        double one = Between(column, row, x - column, y - row, k);
        double two = Between(column, row, x - column, y - row, (k + 1) % Directions);
        return ((one * Math.Sin(Sector - past)) + (two * Math.Sin(past))) / Math.Sin(Sector);
    }

    /// <summary>Give at a place and in a direction (radians), and how it gives way.</summary>
    public (double Give, HoldMode Mode) Exact(Point2 at, double angle)
    {
        (double give, HoldMode mode) = (0, HoldMode.Slide);
        for (int i = 0; i < _ways.Length; i++)
        {
            (double Factor, HoldMode Mode) one =
                _pattern.Kind == CutKind.Plunge
                    ? AnyWay(_ways[i], at, ref _last[i])
                    : WorstEdge(_ways[i], at, angle, ref _last[i]);
            if (1 / Math.Max(one.Factor, 1e-9) > give)
            {
                (give, mode) = (1 / Math.Max(one.Factor, 1e-9), one.Mode);
            }
        }
        return (give, mode);
    }

    private double Between(int column, int row, double x, double y, int k) =>
        (Node(column, row, k) * (1 - x) * (1 - y))
        + (Node(column + 1, row, k) * x * (1 - y))
        + (Node(column, row + 1, k) * (1 - x) * y)
        + (Node(column + 1, row + 1, k) * x * y);

    private double Node(int column, int row, int k)
    {
        ref double node = ref _nodes[(((row * (Squares + 1)) + column) * Directions) + k];
        if (double.IsNaN(node))
        {
            Point2 at = new(_box.MinX + (_box.Width * column / Squares), _box.MinY + (_box.Height * row / Squares));
            node = Exact(at, k * Sector).Give;
        }
        return node;
    }

    /// <summary>
    /// The edge's worst position about the direction of travel: two to begin with, then the one that the motion found gives way
    /// to soonest, until it stays. Tipping and lifting are looked at all round.
    /// </summary>
    private (double Factor, HoldMode Mode) WorstEdge(Held held, Point2 at, double travel, ref Twist last)
    {
        (double factor, HoldMode mode) = (Sliding.Most, HoldMode.Slide);
        for (double edge = -Widest; edge <= Widest; edge += 2 * AngleStep)
        {
            (double tip, HoldMode how) = Sliding.TipOrLift(held, Sideways(at, travel, edge));
            (factor, mode) = tip < factor ? (tip, how) : (factor, mode);
        }
        double worst = 0;
        SlideAnswer answer = default;
        foreach (double edge in (ReadOnlySpan<double>)[0.4, -0.4])
        {
            SlideAnswer now = Sliding.Solve(held, Sideways(at, travel, edge), last);
            last = now.Motion;
            if (edge > 0 || now.Factor < answer.Factor)
            {
                (answer, worst) = (now, edge);
            }
        }
        for (int turn = 0; turn < 4 && answer.Mode == HoldMode.Slide; turn++)
        {
            double next = Soonest(held, at, travel, worst, answer);
            if (Math.Abs(next - worst) < SameAngle)
            {
                break;
            }
            SlideAnswer now = Sliding.Solve(held, Sideways(at, travel, next), answer.Motion);
            if (now.Factor >= answer.Factor)
            {
                break;
            }
            (answer, worst) = (now, next);
        }
        last = answer.Motion;
        return answer.Factor < factor ? (answer.Factor, answer.Mode) : (factor, mode);
    }

    /// <summary>The edge position whose force does most work along a motion, what its lift takes from friction counted in.</summary>
    private double Soonest(Held held, Point2 at, double travel, double edge, in SlideAnswer answer)
    {
        Point2 arm = at - held.Bed.Middle;
        Point2 speed = new(
            answer.Motion.X - (answer.Motion.Turn * arm.Y),
            answer.Motion.Y + (answer.Motion.Turn * arm.X)
        );
        double lost = -answer.PerLoad / Math.Cos(edge);
        double Gain(double angle) => speed.Dot(Sideways(at, travel, angle).Shear) + (lost * Math.Cos(angle));
        double best = edge;
        double most = Gain(edge);
        for (double angle = -Widest; angle <= Widest; angle += AngleStep)
        {
            double gain = Gain(angle);
            (best, most) = gain > most ? (angle, gain) : (best, most);
        }
        (double before, double after) = (Gain(best - AngleStep), Gain(best + AngleStep));
        double bend = before - (2 * most) + after;
        double moved = bend < 0 ? best + (AngleStep / 2 * (before - after) / bend) : best;
        return Math.Clamp(moved, -Widest, Widest);
    }

    /// <summary>The worst direction of a force that may push any way: eight to begin with, then along the motion found.</summary>
    private (double Factor, HoldMode Mode) AnyWay(Held held, Point2 at, ref Twist last)
    {
        SlideAnswer worst = default;
        for (int k = 0; k < 8; k++)
        {
            SlideAnswer now = Sliding.Solve(held, Pushed(at, k * Math.PI / 4), last);
            last = now.Motion;
            worst = k == 0 || now.Factor < worst.Factor ? now : worst;
        }
        Point2 arm = at - held.Bed.Middle;
        for (int turn = 0; turn < 6 && worst.Mode == HoldMode.Slide; turn++)
        {
            double x = worst.Motion.X - (worst.Motion.Turn * arm.Y);
            double y = worst.Motion.Y + (worst.Motion.Turn * arm.X);
            SlideAnswer now = Sliding.Solve(held, Pushed(at, Math.Atan2(y, x)), worst.Motion);
            if (now.Factor >= worst.Factor * (1 - 1e-4))
            {
                break;
            }
            worst = now;
        }
        return (worst.Factor, worst.Mode);
    }

    private Load Pushed(Point2 at, double angle) =>
        new(at, new Point2(Math.Cos(angle), Math.Sin(angle)), _pattern.LiftShare, _pattern.Height);

    /// <summary>
    /// A force of 1 N tangentially on the work: the edge stands so far round from the direction of travel, left positive; the chip and
    /// with it the force go with the cosine. A clockwise spindle's edge runs to the right in front.
    /// </summary>
    private Load Sideways(Point2 at, double travel, double edge)
    {
        (double sin, double cos) = Math.SinCos(travel + edge);
        double chip = Math.Cos(edge);
        Point2 outwards = new(cos, sin);
        Point2 along = new(sin, -cos);
        return new Load(at, (along + (outwards * RadialShare)) * chip, _pattern.LiftShare * chip, _pattern.Height);
    }
}

using FixtureGen.Model;

namespace FixtureGen.Verify.Holding;

/// <summary>The multiplier of a load at which what is held gives way, and how; Motion is the sliding that it begins with; PerLoad the power that one more of the load takes from friction then, below 0.</summary>
internal readonly record struct SlideAnswer(double Factor, HoldMode Mode, Twist Motion, double PerLoad);

/// <summary>A rigid motion in the plane: speed of the bed's middle and turn; any unit.</summary>
internal readonly record struct Twist(double X, double Y, double Turn);

/// <summary>
/// The one multiplier for sliding, tipping and lifting. Sliding: of all rigid motions that do unit work with the load, the one that
/// friction works least against (Goyal, Ruina and Papadopoulos, Wear 143, 1991, 307-330; a stop adds its strength times the
/// speed it blocks). It is found by weighted least squares: with each patch's friction over its speed of the last pass as
/// weight, the best motion is three equations, and no pass is worse than the one before (Weiszfeld's method). Each pass is also
/// a stress field in equilibrium, which bounds the answer from below. The load's own lift and overturning change the pressure
/// while it grows: a plane is added to it, what would pull is left out and the rest scaled to the same force.
/// </summary>
internal static class Sliding
{
    /// <summary>Nothing is held better than this.</summary>
    public const double Most = 999;

    private const int MostPasses = 120;
    private const double Settled = 3e-5;

    /// <summary>How far beyond the least of a pass's equations the motion goes: below 2 no pass is worse than the one before, and most need half as many.</summary>
    private const double Onward = 1.6;

    /// <summary>A motion that hardly works with the load is no place to begin at.</summary>
    private const double LeastWork = 0.1;

    /// <summary>A disc or a bolt that presses does so over a spot, 0.25 mm of it at the least; mm2.</summary>
    private const double PressedSpot2 = 0.0625;

    /// <summary>A stop is a point: of its strength a turn about it may win next to no moment; mm2.</summary>
    private const double StopSpot2 = 1e-6;

    public static SlideAnswer Solve(Held held, in Load load, Twist start)
    {
        (double bound, HoldMode mode) = TipOrLift(held, load);
        Point2 arm = load.At - held.Bed.Middle;
        Twist work = new(load.Shear.X, load.Shear.Y, arm.Cross(load.Shear));
        if (bound <= 0 || load.Shear.Length < 1e-12)
        {
            return new SlideAnswer(bound, mode, start, 0);
        }
        Descent descent = new(held, load, work, held.HasStops ? default : start);
        double factor = descent.Run(bound);
        return factor < bound
            ? new SlideAnswer(factor, HoldMode.Slide, descent.Motion, descent.PerLoad)
            : new SlideAnswer(bound, mode, descent.Motion, 0);
    }

    /// <summary>The multiplier at which the part comes off as a whole or turns over an edge of its hull, at most <see cref="Most"/>.</summary>
    public static (double Factor, HoldMode Mode) TipOrLift(Held held, in Load load)
    {
        if (held.Total <= 0)
        {
            return (0, HoldMode.Lift);
        }
        double lift = load.Lift > 1e-12 ? held.Total / load.Lift : Most;
        double tip = Most;
        foreach (TipLine line in held.TipLines)
        {
            double upset =
                (load.Lift * (line.Inward.Dot(load.At) - line.Offset)) - (load.Height * line.Inward.Dot(load.Shear));
            if (upset > 1e-12 || line.Holding < 0)
            {
                tip = Math.Min(tip, Math.Max(0, line.Holding) / Math.Max(upset, 1e-12));
            }
        }
        return lift <= tip * (1 + 1e-9) ? (Math.Min(lift, Most), HoldMode.Lift) : (Math.Min(tip, Most), HoldMode.Tip);
    }

    /// <summary>A multiplier that statics proves: the stress field of the last pass, made small enough to be allowed everywhere. For a load without lift or height.</summary>
    public static double Lower(Held held, in Load load, Twist motion)
    {
        Point2 arm = load.At - held.Bed.Middle;
        Descent descent = new(held, load, new Twist(load.Shear.X, load.Shear.Y, arm.Cross(load.Shear)), motion);
        return descent.Bound();
    }

    private ref struct Descent
    {
        private readonly Held _held;
        private readonly Twist _work;
        private readonly Pressure _pressure;
        private readonly double _unit;
        private Twist _motion;

        public Descent(Held held, in Load load, Twist work, Twist start)
        {
            _held = held;
            _work = work;
            _pressure = new Pressure(held, load);
            // turns are counted in a length of the bed, so that all three speeds are of one size
            _unit = Math.Max(held.Bed.Reach, 1);
            _motion =
                Scaled(start, LeastWork)
                ?? Scaled(new Twist(work.X, work.Y, work.Turn / (_unit * _unit)), LeastWork)!.Value;
        }

        public readonly Twist Motion => _motion;

        public double PerLoad { get; private set; }

        /// <summary>The factor under the pressure at that factor, below a bound at which the part lifts or tips.</summary>
        public double Run(double bound)
        {
            double factor = 0;
            for (int pass = 0; pass < MostPasses; pass++)
            {
                Pass now = Look(_motion, factor);
                if (now.Power <= 0)
                {
                    // the guess was so high that nothing presses any more
                    if (factor <= 0)
                    {
                        return 0;
                    }
                    factor /= 2;
                    continue;
                }
                double next = factor + ((now.Power - factor) / Math.Max(1 - now.PerLoad, 0.05));
                next = Math.Clamp(next, 0, bound);
                PerLoad = now.PerLoad;
                bool settled = pass > 1 && Math.Abs(next - factor) <= Settled * factor;
                factor = next;
                if (settled || Best(now) is not { } better)
                {
                    break;
                }
                _motion = new Twist(
                    _motion.X + (Onward * (better.X - _motion.X)),
                    _motion.Y + (Onward * (better.Y - _motion.Y)),
                    _motion.Turn + (Onward * (better.Turn - _motion.Turn))
                );
            }
            return factor;
        }

        public double Bound()
        {
            Pass now = Look(_motion, 0);
            if (Best(now) is not { } better)
            {
                return 0;
            }
            double done = Work(Solved(now));
            double ratio = 0;
            Bed bed = _held.Bed;
            for (int i = 0; i < bed.Share.Length; i++)
            {
                ratio = Math.Max(ratio, bed.Share[i] > 0 ? Speed(better, i) / Speed(_motion, i) : 0);
            }
            foreach (Grip grip in _held.Grips)
            {
                ratio = Math.Max(ratio, SpeedAt(better, grip) / SpeedAt(_motion, grip));
            }
            return 1 / done / ratio;
        }

        private readonly double Speed(Twist w, int i)
        {
            Bed bed = _held.Bed;
            double u = w.X - (w.Turn * bed.Y[i]);
            double v = w.Y + (w.Turn * bed.X[i]);
            return Math.Sqrt((u * u) + (v * v) + (w.Turn * w.Turn * bed.Spread2[i]));
        }

        private readonly double SpeedAt(Twist w, in Grip grip)
        {
            Point2 d = grip.At - _held.Bed.Middle;
            double u = w.X - (w.Turn * d.Y);
            double v = w.Y + (w.Turn * d.X);
            double along = (u * grip.Across.X) + (v * grip.Across.Y);
            double square = grip.Across == default ? (u * u) + (v * v) : along * along;
            return Math.Sqrt(square + (w.Turn * w.Turn * Spot2(grip)) + 1e-24);
        }

        private static double Spot2(in Grip grip) => grip.Pressed > 0 ? PressedSpot2 : StopSpot2;

        private readonly double Work(Twist w) => (_work.X * w.X) + (_work.Y * w.Y) + (_work.Turn * w.Turn);

        /// <summary>The motion made to do unit work; null where its share of the work that one of its size could do is no more than the least.</summary>
        private readonly Twist? Scaled(Twist w, double least)
        {
            double work = Work(w);
            double size = Math.Sqrt((w.X * w.X) + (w.Y * w.Y) + (w.Turn * w.Turn * _unit * _unit));
            double force = Math.Sqrt(
                (_work.X * _work.X) + (_work.Y * _work.Y) + (_work.Turn * _work.Turn / (_unit * _unit))
            );
            return work > least * size * force ? new Twist(w.X / work, w.Y / work, w.Turn / work) : null;
        }

        private readonly Twist? Best(in Pass m) => Scaled(Solved(m), 0);

        /// <summary>The motion that solves the weighted equations for the load itself, by Cholesky's factors of the symmetric three by three.</summary>
        private readonly Twist Solved(in Pass m)
        {
            double guard = 1e-12 * (m.Xx + m.Yy);
            double l11 = Math.Sqrt(m.Xx + guard);
            double l21 = m.Xy / l11;
            double l31 = m.Xt / l11;
            double l22 = Math.Sqrt(Math.Max(m.Yy + guard - (l21 * l21), 1e-300));
            double l32 = (m.Yt - (l31 * l21)) / l22;
            double l33 = Math.Sqrt(Math.Max(m.Tt - (l31 * l31) - (l32 * l32), 1e-14 * m.Tt) + 1e-300);
            double a = _work.X / l11;
            double b = (_work.Y - (l21 * a)) / l22;
            double c = (_work.Turn - (l31 * a) - (l32 * b)) / l33;
            double turn = c / l33;
            double y = (b - (l32 * turn)) / l22;
            return new Twist((a - (l21 * y) - (l31 * turn)) / l11, y, turn);
        }

        /// <summary>Friction's power at a motion under the pressure at a factor, with the weights of the least squares.</summary>
        private readonly Pass Look(Twist w, double factor)
        {
            Pressed p = _pressure.PressedAt(factor);
            Pass pass = BedPower.Sum(_held.Bed, w, p, _held.Friction);
            foreach (Grip grip in _held.Grips)
            {
                Point2 d = grip.At - _held.Bed.Middle;
                double hold = grip.Pressed > 0 ? grip.Hold * p.GripShare : grip.Hold;
                double speed = SpeedAt(w, grip);
                pass.Power += hold * speed;
                pass.Add(hold / speed, d, grip.Across, Spot2(grip));
            }
            return pass;
        }
    }
}

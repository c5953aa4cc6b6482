using FixtureGen.Model;

namespace FixtureGen.Holding.Sliding;

/// <summary>
/// The multiplier at which a part gives way, how, and (sliding) the twist it starts with, of unit work against the load;
/// PerLoad is the friction power that a unit of load adds at that twist (below 0 where it lifts).
/// </summary>
internal readonly record struct LimitAnswer(double Factor, HoldMode Mode, Twist Twist, double PerLoad);

/// <summary>
/// The one load multiplier for sliding, lifting and tipping together. Sliding is the kinematic theorem of limit analysis:
/// the least friction power over all rigid motions that do unit work against the load (a minimum over the instantaneous
/// centre, translations included), which is exact for the assumed pressure; compare Goyal, Ruina and Papadopoulos, Wear 143
/// (1991) 307. The load's own lift and overturning change the pressure: a plane is added to it and what would pull is left
/// out, so lift takes friction away before anything lifts. Tipping and lifting bound the multiplier from above.
/// </summary>
internal static class LimitState
{
    /// <summary>Factors are finite: nothing is held better than this.</summary>
    public const double Most = 999;

    private const double FactorTolerance = 1e-5;
    private const double SlopeTolerance = 1e-3;

    /// <summary>A factor that is known exactly for its twist may change by this share: the twist's own change adds its square only.</summary>
    private const double PlainTolerance = 3e-3;

    private const double LeastShare = 1e-3;
    private const int MostPasses = 60;

    /// <summary>Solve for one load. <paramref name="start"/> is a neighbour's answer to begin with; default for none.</summary>
    public static LimitAnswer Solve(HeldPart held, in CutLoad load, LimitAnswer start)
    {
        (double bound, HoldMode mode) = TipOrLift(held, load);
        if (bound <= 0)
        {
            return new LimitAnswer(0, mode, start.Twist, 0);
        }
        Twist work = held.Nodes.Work(load);
        double size = work.Length;
        if (size < 1e-12)
        {
            return new LimitAnswer(bound, mode, start.Twist, 0);
        }
        LimitAnswer slide = new Slide(held, load, work, size).Solve(start, Math.Min(bound, Most));
        return slide.Factor < bound ? slide : new LimitAnswer(bound, mode, slide.Twist, 0);
    }

    /// <summary>The multiplier at which the held's reaction reaches an edge of its hull, or vanishes; at most <see cref="Most"/>.</summary>
    public static (double Factor, HoldMode Mode) TipOrLift(HeldPart held, in CutLoad load)
    {
        double factor = Most;
        HoldMode mode = HoldMode.Tip;
        foreach (TipEdge edge in held.Edges)
        {
            double upsets =
                (load.Lift * (edge.Inward.Dot(load.At) - edge.Offset)) - (load.Height * edge.Inward.Dot(load.Shear));
            if (upsets > 1e-12)
            {
                factor = Math.Min(factor, Math.Max(0, edge.Holding) / upsets);
            }
            else if (edge.Holding < 0)
            {
                factor = 0;
            }
        }
        if (held.Total <= 0)
        {
            return (0, HoldMode.Lift);
        }
        double lift = load.Lift > 1e-12 ? held.Total / load.Lift : Most;
        return lift <= factor * (1 + 1e-9) && lift < Most ? (lift, HoldMode.Lift) : (factor, mode);
    }

    private ref struct Slide
    {
        private readonly FrictionNodes _nodes;
        private readonly Twist _work;
        private readonly double _size;
        private readonly LoadedPressure _loaded;
        private readonly Twist _b1;
        private readonly Twist _b2;
        private Pressure _pressure;

        public Slide(HeldPart held, in CutLoad load, Twist work, double size)
        {
            _work = work;
            _size = size;
            _nodes = held.Nodes;
            _loaded = new LoadedPressure(held, load);
            Twist unit = work * (1 / size);
            Twist other = Math.Abs(unit.Turn) < 0.7 ? new Twist(0, 0, 1) : new Twist(1, 0, 0);
            Twist first = unit.Cross(other);
            _b1 = first * (1 / first.Length);
            _b2 = unit.Cross(_b1);
        }

        public LimitAnswer Solve(LimitAnswer start, double most)
        {
            double done = _work.Dot(start.Twist);
            Twist w =
                done > 1e-3 * _size * start.Twist.Length ? start.Twist * (1 / done) : _work * (1 / (_size * _size));
            double factor = Math.Min(start.Factor, most);
            double perLoad = 0;
            if (!Together(ref w, ref factor, most, ref perLoad))
            {
                InTurn(ref w, ref factor, most, ref perLoad);
            }
            return new LimitAnswer(Math.Min(factor, Most), HoldMode.Slide, w, perLoad);
        }

        /// <summary>
        /// Twist and factor by Newton at once: where the pressure stays above 0 all over, friction's power changes in a
        /// straight line with the factor, so that the factor of a twist is known exactly from one look. False where the
        /// pressure does not, or where it comes to rest at a kink: then twist and factor are as good as they got.
        /// </summary>
        private bool Together(ref Twist w, ref double factor, double most, ref double perLoad)
        {
            if (!Press(factor))
            {
                return false;
            }
            FrictionPower power = Evaluate(w);
            for (int pass = 0; pass < MostPasses; pass++)
            {
                double next = FactorOf(power, factor, most);
                double change = Math.Abs(next - factor);
                perLoad = power.PerLoad;
                factor = next;
                double g1 = power.Slope.Dot(_b1);
                double g2 = power.Slope.Dot(_b2);
                bool level = Math.Sqrt((g1 * g1) + (g2 * g2)) <= SlopeTolerance * power.Value * _size;
                if (!Press(factor))
                {
                    return false;
                }
                if (level && change <= PlainTolerance * (1 + factor))
                {
                    return true;
                }
                Twist step = level ? default : NewtonStep(power, g1, g2);
                double expected = -((g1 * step.Dot(_b1)) + (g2 * step.Dot(_b2)));
                power = Evaluate(w + step);
                for (double share = 1; FactorOf(power, factor, most) > factor - (0.05 * share * expected); )
                {
                    share /= 4;
                    if (level || share < LeastShare)
                    {
                        return false;
                    }
                    step *= 0.25;
                    power = Evaluate(w + step);
                }
                w += step;
            }
            return false;
        }

        /// <summary>The factor at which friction's power at this twist is the load's, known under the pressure at another factor.</summary>
        private static double FactorOf(in FrictionPower power, double at, double most) =>
            Math.Clamp(at + ((power.Value - at) / Math.Max(1 - power.PerLoad, 0.05)), 0, most);

        /// <summary>The twist of least power under the pressure at a factor, then the factor of that twist, until both stay.</summary>
        private void InTurn(ref Twist w, ref double factor, double most, ref double perLoad)
        {
            bool changes = _loaded.PerForce != 0 || _loaded.PerSlope != default;
            for (int turn = 0; turn < 30; turn++)
            {
                Press(factor);
                FrictionPower power = Minimise(ref w);
                perLoad = power.PerLoad;
                double next = FactorOf(power, factor, most);
                bool settled = !changes || Math.Abs(next - factor) <= FactorTolerance * (1 + factor);
                factor = next;
                if (settled)
                {
                    break;
                }
            }
        }

        /// <summary>Sets the pressure at a factor; true where it is above 0 all over.</summary>
        private bool Press(double factor)
        {
            _pressure = _loaded.PressureAt(factor);
            return _pressure.Everywhere;
        }

        private FrictionPower Minimise(ref Twist w)
        {
            FrictionPower power = Descend(ref w, out bool settled);
            return settled ? power : AtKinks(ref w, power);
        }

        /// <summary>A point that presses is a kink in the power, and turning about it may be the least of all.</summary>
        private readonly FrictionPower AtKinks(ref Twist w, FrictionPower best)
        {
            foreach (Point2 p in _nodes.Kinks)
            {
                Twist about = new(p.Y, -p.X, 1);
                double done = _work.Dot(about);
                if (Math.Abs(done) > 1e-9 * _size)
                {
                    FrictionPower power = Evaluate(about * (1 / done));
                    if (power.Value < best.Value)
                    {
                        (best, w) = (power, about * (1 / done));
                    }
                }
            }
            return best;
        }

        private readonly FrictionPower Descend(ref Twist w, out bool settled)
        {
            settled = false;
            FrictionPower power = Evaluate(w);
            for (int pass = 0; pass < MostPasses; pass++)
            {
                double g1 = power.Slope.Dot(_b1);
                double g2 = power.Slope.Dot(_b2);
                if (Math.Sqrt((g1 * g1) + (g2 * g2)) <= SlopeTolerance * power.Value * _size)
                {
                    settled = true;
                    break;
                }
                Twist step = NewtonStep(power, g1, g2);
                double expected = -((g1 * step.Dot(_b1)) + (g2 * step.Dot(_b2)));
                if (expected <= 1e-9 * power.Value)
                {
                    break;
                }
                double share = 1;
                FrictionPower next = Evaluate(w + step);
                while (next.Value > power.Value - (0.05 * share * expected) && share > 1e-6)
                {
                    share /= 4;
                    next = Evaluate(w + (step * share));
                }
                if (next.Value >= power.Value)
                {
                    break;
                }
                w += step * share;
                power = next;
            }
            return power;
        }

        private readonly Twist NewtonStep(in FrictionPower power, double g1, double g2)
        {
            Twist h1 = Times(power, _b1);
            double a = h1.Dot(_b1);
            double b = h1.Dot(_b2);
            double c = Times(power, _b2).Dot(_b2);
            double guard = 1e-9 * (a + c);
            a += guard;
            c += guard;
            double determinant = (a * c) - (b * b);
            double s1 = -((c * g1) - (b * g2)) / determinant;
            double s2 = -((a * g2) - (b * g1)) / determinant;
            return (_b1 * s1) + (_b2 * s2);
        }

        private readonly FrictionPower Evaluate(Twist w) =>
            _nodes.PowerAt(
                w,
                _pressure.Force,
                _pressure.Slope,
                _pressure.Rescale,
                _pressure.PointScale,
                _loaded.PerForce,
                _loaded.PerSlope
            );

        private static Twist Times(in FrictionPower h, Twist t) =>
            new(
                (h.Xx * t.X) + (h.Xy * t.Y) + (h.Xt * t.Turn),
                (h.Xy * t.X) + (h.Yy * t.Y) + (h.Yt * t.Turn),
                (h.Xt * t.X) + (h.Yt * t.Y) + (h.Tt * t.Turn)
            );
    }
}

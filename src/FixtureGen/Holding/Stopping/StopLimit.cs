using FixtureGen.Holding.Sliding;
using FixtureGen.Model;

namespace FixtureGen.Holding.Stopping;

/// <summary>
/// The load multiplier at which a part that has slipped onto its stops gives way: the kinematic theorem again, a stop
/// adding its strength times the speed that it blocks to friction's power. Stops are taken as frictionless: with friction in them
/// limit theorems do not hold ("Coulomb friction, plasticity, and limit loads", ONR technical report 85, 1953), and without it they
/// hold less. Solved by cutting planes, whose model lies below the power everywhere: the answer is a lower bound, at most 0.5 % low.
/// </summary>
internal static class StopLimit
{
    private const double Gap = 2e-3;
    private const double Settled = 2e-3;
    private const int MostTurns = 8;
    private const int MostCuts = 60;
    private const int MostHinges = 12;

    /// <summary>As <see cref="LimitState.Solve"/>, with stops; never below its answer by more than the bound's own gap.</summary>
    /// <param name="start">A multiplier to begin with.</param>
    public static LimitAnswer Solve(HeldPart held, StopGrips stops, in CutLoad load, double start)
    {
        (double bound, HoldMode mode) = LimitState.TipOrLift(held, load);
        Twist work = held.Nodes.Work(load);
        double size = work.Length;
        if (bound <= 0 || size < 1e-12)
        {
            return new LimitAnswer(Math.Max(0, bound), mode, default, 0);
        }
        Search search = new(held, stops, load, work, size);
        double factor = Math.Clamp(start, 0, bound);
        CutPlanes.Bracket last = default;
        for (int turn = 0; turn < MostTurns; turn++)
        {
            last = search.Least(factor);
            double next = Math.Clamp(
                factor + ((last.Upper - factor) / Math.Max(1 - search.PerLoad, 0.05)),
                0,
                Math.Min(bound, LimitState.Most)
            );
            if (Math.Abs(next - factor) <= Settled * (1 + factor))
            {
                break;
            }
            factor = next;
        }
        // where the load presses and so adds power, the power at a smaller multiplier is smaller too
        double changes = Math.Clamp(search.PerLoad, 0, 0.95);
        double safe = Math.Max(0, Math.Min(factor, factor + ((last.Lower - factor) / (1 - changes))));
        return safe < bound * (1 - 1e-9)
            ? new LimitAnswer(safe, search.StopsGive ? HoldMode.Stop : HoldMode.Slide, search.Best, search.PerLoad)
            : new LimitAnswer(bound, mode, search.Best, 0);
    }

    /// <summary>Friction's and the stops' power over the twists of unit work.</summary>
    private sealed class Search
    {
        private readonly HeldPart _held;
        private readonly StopGrips _stops;
        private readonly LoadedPressure _loaded;
        private readonly double _size;
        private readonly Twist _unit;
        private readonly Twist _b1;
        private readonly Twist _b2;

        public Search(HeldPart held, StopGrips stops, in CutLoad load, Twist work, double size)
        {
            (_held, _stops, _size) = (held, stops, size);
            _loaded = new LoadedPressure(held, load);
            _unit = work * (1 / size);
            Twist other = Math.Abs(_unit.Turn) < 0.7 ? new Twist(0, 0, 1) : new Twist(1, 0, 0);
            Twist first = _unit.Cross(other);
            _b1 = first * (1 / first.Length);
            _b2 = _unit.Cross(_b1);
        }

        public Twist Best { get; private set; }

        public double PerLoad { get; private set; }

        public bool StopsGive { get; private set; }

        /// <summary>The least power under the pressure at a factor, from below and from above.</summary>
        public CutPlanes.Bracket Least(double factor)
        {
            Pressure p = _loaded.PressureAt(factor);
            double least = double.MaxValue;
            CutPlanes planes = new(MostCuts);
            void Cut(double y1, double y2)
            {
                Twist w = (_unit + (_b1 * y1) + (_b2 * y2)) * (1 / _size);
                FrictionPower friction = _held.Nodes.PowerAt(
                    w,
                    p.Force,
                    p.Slope,
                    p.Rescale,
                    p.PointScale,
                    _loaded.PerForce,
                    _loaded.PerSlope
                );
                (double stopped, Twist slope) = _stops.Power(w);
                double value = friction.Value + stopped;
                Twist rise = friction.Slope + slope;
                planes.Add(y1, y2, value, rise.Dot(_b1) / _size, rise.Dot(_b2) / _size);
                if (value < least)
                {
                    (least, Best, PerLoad, StopsGive) = (value, w, friction.PerLoad, stopped > 1e-6 * value);
                }
            }
            Cut(0, 0);
            foreach (Twist hinge in _stops.Hinges.Take(MostHinges))
            {
                double done = hinge.Dot(_unit);
                if (Math.Abs(done) > 1e-6)
                {
                    Twist w = hinge * (1 / done);
                    Cut(w.Dot(_b1), w.Dot(_b2));
                }
            }
            while (planes.Count < MostCuts && least - planes.Lower > Gap * least)
            {
                (double y1, double y2) = planes.At;
                Cut(y1, y2);
            }
            return new CutPlanes.Bracket(Math.Min(least, planes.Lower), least);
        }
    }
}

using FixtureGen.Model;

namespace FixtureGen.Holding;

/// <summary>Says what sets a factor: pressure, friction or force, by what changing each would do.</summary>
internal static class Governing
{
    public static string Of(IReadOnlyList<HeldPart> held, CutLoad load, StepFactor answer)
    {
        if (held.Count == 0 || held.All(h => h.Total <= 0))
        {
            return "pressure: nothing presses the part down";
        }
        if (answer.Factor >= LimitState.Most)
        {
            return "nothing: more than any load here";
        }
        if (answer.Mode != HoldMode.Slide)
        {
            return FormattableString.Invariant(
                $"force: a lift of {load.Lift:0.0} N and the overturning of {load.Shear.Length:0.0} N"
            );
        }
        double level = held.Min(h => LimitState.Solve(h, load with { Lift = 0 }, default).Factor);
        if (level > 1.15 * answer.Factor)
        {
            return FormattableString.Invariant(
                $"force: the cutter's lift of {load.Lift:0.0} N takes friction away ({level:0.00} without it)"
            );
        }
        double pressed = held.Min(h => h.Total);
        return FormattableString.Invariant(
            $"friction: {held[0].Friction:0.00} under {pressed:0} N against {load.Shear.Length:0.0} N"
        );
    }
}

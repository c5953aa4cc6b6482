using FixtureGen.Model;

namespace FixtureGen.Holding.Sliding;

/// <summary>Says what sets a factor: pressure, friction or force, by what changing each would do.</summary>
internal static class Governing
{
    /// <summary>A cord that takes back this share of the vacuum is what to look at first.</summary>
    private const double MuchTaken = 0.4;

    /// <summary>With the vacuum up: what presses, and how much of it the cord takes back.</summary>
    public static string WithVacuum(
        IReadOnlyList<HeldPart> held,
        CutLoad load,
        StepFactor answer,
        double gross,
        double cord
    ) =>
        answer.Mode == HoldMode.Slide && cord > MuchTaken * gross
            ? FormattableString.Invariant($"pressure: the cord takes back {cord:0} N of the vacuum's {gross:0} N")
            : Describe(held, load, answer);

    /// <summary>With magnets alone: their pull, where the cord has lifted the shell away from it.</summary>
    public static string WithMagnets(
        IReadOnlyList<HeldPart> held,
        CutLoad load,
        StepFactor answer,
        double pull,
        double lift
    ) =>
        answer is { Mode: HoldMode.Slide, Factor: > 0 } && lift > 0
            ? FormattableString.Invariant(
                $"force: the magnets' {pull:0} N, less by the cord's lift of {lift:0.00} mm, against {load.Shear.Length:0.0} N"
            )
            : Describe(held, load, answer);

    public static string Describe(IReadOnlyList<HeldPart> held, CutLoad load, StepFactor answer)
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

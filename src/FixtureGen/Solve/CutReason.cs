using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Solve;

/// <summary>Why the trim is cut upcut or downcut, in one or two sentences with the figures behind it.</summary>
internal static class CutReason
{
    public static string Explain(
        ImmutableArray<DirectionTrial> trials,
        HelixDirection chosen,
        bool stated,
        HouseLimits limits
    )
    {
        DirectionTrial own = trials.First(t => t.Helix == chosen);
        string first =
            $"{Name(own.Helix, capital: true)}{(stated ? ", as the job says" : "")}: {Pull(own)}; {Hold(own)}";
        string limit = own.MagnetsOnly is null
            ? FormattableString.Invariant($" (limits {limits.VacuumFactor:0.##} and {limits.MagnetFactor:0.##})")
            : FormattableString.Invariant($" (limit {limits.VacuumFactor:0.##})");
        string why = own.MeetsLimits ? Chips(own.Helix) : "That is too little.";
        IEnumerable<string> others = trials
            .Where(t => t.Helix != chosen)
            .Select(t => $" {Name(t.Helix, capital: true)} would: {Pull(t)}; {Hold(t)}{Missing(t)}.");
        return $"{first}{limit}. {why}{string.Concat(others)}{Advice(trials, own, stated)}";
    }

    private static string Pull(DirectionTrial t) =>
        t.AxialN switch
        {
            > 0.05 => FormattableString.Invariant($"pulls the shell up with {t.AxialN:0.0} N"),
            < -0.05 => FormattableString.Invariant($"presses the shell down with {-t.AxialN:0.0} N"),
            _ => "neither pulls nor presses",
        };

    private static string Hold(DirectionTrial t) =>
        t.MagnetsOnly is { } put
            ? $"magnets alone hold {FactorText.Two(put)} times the load"
            : FormattableString.Invariant(
                $"vacuum alone holds {FactorText.Two(t.VacuumOnly)} times the load, magnets and stops while stopping {FactorText.Two(t.MagnetsStopping)} times"
            );

    private static string Chips(HelixDirection helix) =>
        helix switch
        {
            HelixDirection.Up => "It holds, and the chips leave the slot upwards.",
            HelixDirection.Down =>
                "It holds, but packs its chips into the relief: keep the extraction on and watch for welded chips.",
            HelixDirection.Straight => "It holds; the chips leave only with air or extraction.",
        };

    private static string Missing(DirectionTrial t) => t.InRack ? "" : " (none in the changer)";

    /// <summary>What to name instead, where another direction is the better one.</summary>
    private static string Advice(ImmutableArray<DirectionTrial> trials, DirectionTrial own, bool stated)
    {
        DirectionTrial? better = own.MeetsLimits
            ? trials.TakeWhile(t => t != own).FirstOrDefault(t => t.MeetsLimits)
            : trials.FirstOrDefault(t => t.MeetsLimits);
        string cutter = better is { InRack: true } ? $" ({better.Cutter})" : "";
        return better is null || !stated ? ""
            : own.MeetsLimits
                ? $" {Name(better.Helix, capital: true)}{cutter} would hold too and clear the slot better."
            : $" Take {Name(better.Helix, capital: false)}{cutter}: it holds.";
    }

    private static string Name(HelixDirection helix, bool capital) =>
        (helix, capital) switch
        {
            (HelixDirection.Up, true) => "Upcut",
            (HelixDirection.Up, false) => "an upcut",
            (HelixDirection.Down, true) => "Downcut",
            (HelixDirection.Down, false) => "a downcut",
            (_, true) => "Straight",
            _ => "a straight one",
        };
}

using FixtureGen.Model;

namespace FixtureGen.Holding.Block;

/// <summary>What the hold of the block on the plate has to say to people.</summary>
internal static class BlockHoldFindings
{
    public static Finding Altitude(double metres) =>
        new(
            "vacuum-altitude",
            Severity.Error,
            "job",
            FormattableString.Invariant($"Altitude {metres:0} m is outside of -500 to 11000 m."),
            "State the shop's height above the sea in metres."
        );

    public static Finding BlockLow(BlockHold hold, bool sealBroken, double limit) =>
        new(
            "block-hold-low",
            Severity.Error,
            hold.Operation,
            FormattableString.Invariant(
                $"Factor {hold.Factor:0.00} of the block on the plate, {limit - hold.Factor:0.00} below {limit:0.00}, under {hold.LoadN:0} N; it would {Words.Verb(hold.Mode)}."
            ),
            sealBroken && !hold.Bolted
                ? "Bolt the block down before the plate's seal is broken."
                : "Use a smaller cutter, a shallower step or a slower feed, or bolt the block."
        );
}

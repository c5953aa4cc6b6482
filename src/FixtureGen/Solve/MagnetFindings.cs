using FixtureGen.Model;

namespace FixtureGen.Solve;

/// <summary>What placing magnets has to say.</summary>
internal static class MagnetFindings
{
    public static Finding LockedBlocked(Point2 at, double shortBy, string against) =>
        new(
            "magnet-locked-blocked",
            Severity.Error,
            Where(at),
            FormattableString.Invariant($"The locked magnet is {shortBy:0.00} mm too near {against}."),
            "Move it, or unlock it so that it may be moved."
        )
        {
            At = at,
        };

    public static Finding WishBlocked(Point2 at, double shortBy, string against, double reach) =>
        new(
            "magnet-wish-blocked",
            Severity.Error,
            Where(at),
            FormattableString.Invariant(
                $"The wished magnet is {shortBy:0.00} mm too near {against}, and no place within {reach:0} mm is free."
            ),
            "Wish it elsewhere, or leave it out and let it be placed."
        )
        {
            At = at,
        };

    public static Finding WishMoved(Point2 from, Point2 to, double shortBy, string against) =>
        new(
            "magnet-wish-moved",
            Severity.Warning,
            Where(from),
            FormattableString.Invariant(
                $"The wished magnet is {shortBy:0.00} mm too near {against}; it was moved {from.DistanceTo(to):0.0} mm to X{to.X:0.0} Y{to.Y:0.0}."
            ),
            "Look at the new place, or wish for another."
        )
        {
            At = to,
        };

    /// <param name="seals">Whether grooves and the vacuum's net take room too.</param>
    public static Finding DoNotFit(int wanted, int fit, double spacing, bool seals) =>
        new(
            "magnets-do-not-fit",
            Severity.Error,
            "magnets",
            FormattableString.Invariant(
                $"{wanted} magnets are wanted and {fit} fit: neighbours stand at least {spacing:0.0} mm apart, pockets {(seals ? "a wall from grooves with room for the vacuum's net between" : "a wall from relief, holes and each other")}, jackets clear of the cutter."
            ),
            FormattableString.Invariant($"Ask for {fit}, or use smaller magnets and jackets.")
        );

    public static Finding TargetMissed(double target, double reached, int magnets) =>
        new(
            "magnet-target-missed",
            Severity.Warning,
            "magnets",
            FormattableString.Invariant(
                $"The factor of {target:0.00} wished for with the seal lost is missed by {target - reached:0.00}: {magnets} magnets reach {reached:0.00}."
            ),
            FormattableString.Invariant(
                $"Wish for {Math.Floor(reached * 100) / 100:0.00} or less, or leave factor_target out: where the hold is too low, check tries what would mend it."
            )
        );

    private static string Where(Point2 at) => FormattableString.Invariant($"X{at.X:0.0} Y{at.Y:0.0}");
}

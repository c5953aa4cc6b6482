namespace FixtureGen.Holding.Magnets;

/// <summary>
/// The load that magnets must hold while the machine stops after the seal is lost, as a share of the full cutting load.
/// The model: the seal goes at once, at full load. Until the feed hold begins the cutter goes on at full load for the reaction
/// distance r (feed times the reaction time of switch and control); then it comes to rest at a steady deceleration over the
/// machine's feed-hold distance d, so at s past r the feed and with it the chip and the force are down to sqrt(1 - s/d). The part
/// may give way by at most a slip x, over which the pairs keep their pull. By the work-energy theorem it comes to rest within
/// x if the hold's work is no less than the cutter's, with the force taken along the slip all the while (the worst). So the
/// share is 1 where x is no longer than r, else (r + (2/3) d (1 - (1 - min(1, (x - r)/d))^1.5)) / x: without reaction 2/3 where
/// d = x. A chip thinner than what rubs does not get lighter, which sets a floor. The model is the house's own.
/// </summary>
public static class StoppingLoad
{
    /// <summary>Below this chip thickness plastics rub, mm (0.001 in; common practice, no source).</summary>
    public const double RubbingChip = 0.0254;

    /// <summary>Share of the pull that a slip may cost a pair; the house's choice.</summary>
    public const double PullLost = 0.05;

    /// <summary>
    /// Share of the full load, above 0 and at most 1; reaction and feed-hold distance, slip and thickest chip in mm. 1 without
    /// slip or chip; a reaction or feed-hold distance below 0 counts as 0.
    /// </summary>
    public static double Share(double reaction, double feedHoldDistance, double slip, double chipThickness)
    {
        double floor = chipThickness > 0 ? Math.Min(1, RubbingChip / chipThickness) : 1;
        if (slip <= 0 || slip <= reaction)
        {
            return 1;
        }
        double rest = slip - Math.Max(0, reaction);
        double slowing =
            feedHoldDistance <= 0
                ? 0
                : 2.0 / 3 * feedHoldDistance * (1 - Math.Pow(1 - Math.Min(1, rest / feedHoldDistance), 1.5));
        return Math.Max(floor, (Math.Max(0, reaction) + slowing) / slip);
    }

    /// <summary>The slip at which a pair's pull at a gap (mm) has fallen by <see cref="PullLost"/>, mm, at most the disc's radius.</summary>
    public static double AllowedSlip(Disc disc, double gap)
    {
        double aligned = MagnetPair.OffsetN(disc, disc, gap, 0).Pull;
        double low = 0;
        double high = disc.Radius;
        for (int i = 0; i < 12; i++)
        {
            double slip = (low + high) / 2;
            double pull = MagnetPair.OffsetN(disc, disc, gap, slip).Pull;
            (low, high) = pull > (1 - PullLost) * aligned ? (slip, high) : (low, slip);
        }
        return low;
    }
}

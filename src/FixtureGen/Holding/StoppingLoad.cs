namespace FixtureGen.Holding;

/// <summary>
/// The load that magnets must hold while the machine stops after the seal is lost, as a share of the full cutting load.
/// The model: the seal goes at once, at full load, and the feed hold brings the cutter to rest at a steady deceleration over
/// the machine's feed-hold distance d, so at s the feed and with it the chip and the force are down to sqrt(1 - s/d). The part
/// may give way by at most a slip x, over which the pairs keep their pull. By the work-energy theorem it comes to rest within
/// x if the hold's work is no less than the cutter's, hold * x &gt;= F * Int_0^x sqrt(1 - s/d) ds, with the force taken along
/// the slip all the while (the worst). So the share is (2/3)(d/x)(1 - (1 - min(1, x/d))^1.5): 1 for a very long stop, falling
/// to 2/3 where d = x. A chip thinner than what rubs does not get lighter, which sets a floor. Common practice, no source.
/// </summary>
public static class StoppingLoad
{
    /// <summary>Below this chip thickness plastics rub, mm (0.001 in; common practice, no source).</summary>
    public const double RubbingChip = 0.0254;

    /// <summary>Share of the pull that a slip may cost a pair.</summary>
    public const double PullLost = 0.05;

    /// <summary>Share of the full load; feed-hold distance, slip and thickest chip in mm.</summary>
    public static double Share(double feedHoldDistance, double slip, double chipThickness)
    {
        double floor = chipThickness > 0 ? Math.Min(1, RubbingChip / chipThickness) : 1;
        if (feedHoldDistance <= 0 || slip <= 0)
        {
            return slip <= 0 ? 1 : floor;
        }
        double x = Math.Min(1, slip / feedHoldDistance);
        double mean = 2.0 / 3 * (feedHoldDistance / slip) * (1 - Math.Pow(1 - x, 1.5));
        return Math.Max(floor, mean);
    }

    /// <summary>The slip at which a pair's pull has fallen by <see cref="PullLost"/>, mm.</summary>
    public static double AllowedSlip(Disc disc, double gap)
    {
        double aligned = MagnetPair.QuickOffsetN(disc, disc, gap, 0).Pull;
        double low = 0;
        double high = disc.Radius;
        for (int i = 0; i < 12; i++)
        {
            double slip = (low + high) / 2;
            double pull = MagnetPair.QuickOffsetN(disc, disc, gap, slip).Pull;
            (low, high) = pull > (1 - PullLost) * aligned ? (slip, high) : (low, slip);
        }
        return low;
    }
}

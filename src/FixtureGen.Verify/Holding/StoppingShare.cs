using FixtureGen.Model;

namespace FixtureGen.Verify.Holding;

/// <summary>
/// What is left of a cut's load while the machine comes to rest after the seal was lost, as the house model has it: full load until
/// the feed hold begins, then steady slowing over the feed-hold distance, the chip and the force with it; the part may give way by
/// Slip mm, over which the force does no more work than the hold. A chip thinner than what rubs pushes no less.
/// </summary>
internal sealed class StoppingShare(Machine machine, double slip)
{
    /// <summary>Plastics rub below this chip, mm (0.001 in; common practice, no source).</summary>
    private const double RubbingChip = 0.0254;

    /// <summary>0 to 1; feed mm/min, thickest chip mm.</summary>
    public double Left(double feedMmPerMin, double chip)
    {
        double rubs = chip > 0 ? Math.Min(1, RubbingChip / chip) : 1;
        double reaction = Math.Max(0, feedMmPerMin / 60 * machine.VacuumReactionSeconds);
        if (slip <= reaction)
        {
            return 1;
        }
        double d = machine.FeedHoldDistance;
        double rest = slip - reaction;
        double slowing = d <= 0 ? 0 : 2 * d / 3 * (1 - Math.Pow(Math.Max(0, 1 - (rest / d)), 1.5));
        return Math.Max(rubs, (reaction + slowing) / slip);
    }
}

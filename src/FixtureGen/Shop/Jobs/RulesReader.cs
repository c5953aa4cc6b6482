using FixtureGen.Model;
using FixtureGen.Shop.Reading;

namespace FixtureGen.Shop.Jobs;

/// <summary>[rules], [limits] of a job. Each key has a default; the defaults are handbook practice (common practice, no source).</summary>
internal static class RulesReader
{
    /// <summary>The skim that the default fixture height leaves on stock of nominal thickness, mm.</summary>
    public const double NominalSkim = 0.55;

    public static HouseLimits Limits(TableReader? t)
    {
        t?.Gone(
            "below_is_error",
            "a hold below a house limit is refused, and below 1 always",
            "Take the line out; where a job is to be made all the same, write [hold] accept_low_hold = \"reason\", which stands on every paper and program."
        );
        HouseLimits limits = new(
            t?.WithinOrNull(JobRanges.VacuumFactor) ?? 2,
            t?.WithinOrNull(JobRanges.MagnetFactor) ?? 1,
            t?.WithinOrNull(JobRanges.BlockFactor) ?? 2
        );
        t?.Close();
        return limits;
    }

    /// <param name="slackMin">The shell's least looseness, mm: what locates it leaves at least so much room unless the job states less.</param>
    public static Rules Read(TableReader? t, Blank blank, Gasket cord, double slackMin)
    {
        Rules usual = Defaults(blank, cord);
        Rules d = usual with
        {
            RunningClearance = Math.Max(usual.RunningClearance, slackMin),
            LocatorHoleClearance = Math.Max(usual.LocatorHoleClearance, 2 * slackMin),
        };
        if (t is null)
        {
            return d;
        }
        Rules rules = new()
        {
            FixtureHeight = t.LengthOr("fixture_height", d.FixtureHeight, 3, 200),
            LeastSkim = t.LengthOr("least_skim", d.LeastSkim, 0, 10),
            SideClearance = t.LengthOr("side_clearance", d.SideClearance, 0.05, 5),
            TipBelowShell = t.LengthOr("tip_below_shell", d.TipBelowShell, 0.05, 10),
            ReliefFloorBelowTip = t.LengthOr("relief_floor_below_tip", d.ReliefFloorBelowTip, 0.1, 20),
            Land = t.LengthOr("land", d.Land, 0.5, 50),
            Wall = t.LengthOr("wall", d.Wall, 0.3, 20),
            LeastFloor = t.LengthOr("least_floor", d.LeastFloor, 0.3, 50),
            NetDepth = t.LengthOr("net_depth", d.NetDepth, 0.2, 20),
            NetReach = t.WithinOrNull(JobRanges.NetReach) ?? d.NetReach,
            MagnetRecess = t.WithinOrNull(JobRanges.MagnetRecess) ?? d.MagnetRecess,
            MagnetGlue = t.WithinOrNull(JobRanges.MagnetGlue) ?? d.MagnetGlue,
            MagnetPocketClearance = t.LengthOr("magnet_pocket_clearance", d.MagnetPocketClearance, 0.01, 2),
            JacketClearance = t.LengthOr("jacket_clearance", d.JacketClearance, 0, 20),
            SlugMilledBelow = t.LengthOr("slug_milled_below", d.SlugMilledBelow, 0, 200),
            TabLength = t.WithinOrNull(JobRanges.TabLength) ?? d.TabLength,
            TabThickness = t.WithinOrNull(JobRanges.TabThickness) ?? d.TabThickness,
            LeadRadius = t.LengthOr("lead_radius", d.LeadRadius, 0.2, 50),
            EngraveDepth = t.LengthOr("engrave_depth", d.EngraveDepth, 0.02, 5),
            LetterHeight = t.LengthOr("letter_height", d.LetterHeight, 1.8, 20),
            TemperatureSwingK = t.NumberOr("temperature_swing_k", d.TemperatureSwingK, 0, 100),
            LocatorPinDiameter = t.WithinOrNull(JobRanges.LocatorPin) ?? d.LocatorPinDiameter,
            RunningClearance = t.WithinOrNull(JobRanges.RunningClearance) ?? d.RunningClearance,
            CornerLeft = t.LengthOr("corner_left", d.CornerLeft, 0.02, 5),
            LocatorHoleClearance = t.WithinOrNull(JobRanges.LocatorClearance) ?? d.LocatorHoleClearance,
            LocatorPinProjection = t.WithinOrNull(JobRanges.LocatorProjection) ?? d.LocatorPinProjection,
        };
        t.Close();
        return rules;
    }

    /// <summary>
    /// The tip 0.5 to 1.5 mm below the shell, relief 2 to 3 mm deep; land at least 1/8 in and never under one cord section;
    /// magnets recessed 0.13 to 0.25 mm; slugs under 20 mm milled away. Common practice, no source.
    /// </summary>
    public static Rules Defaults(Blank blank, Gasket cord) =>
        new()
        {
            FixtureHeight = blank.Thickness - NominalSkim,
            LeastSkim = 0.2,
            SideClearance = 0.5,
            TipBelowShell = 1.0,
            ReliefFloorBelowTip = 1.5,
            Land = Math.Max(3.2, cord.Section),
            Wall = 1.5,
            LeastFloor = 3.0,
            NetDepth = 2.0,
            NetReach = 25.0,
            MagnetRecess = 0.2,
            MagnetGlue = 0.1,
            MagnetPocketClearance = 0.1,
            JacketClearance = 1.0,
            SlugMilledBelow = 20.0,
            TabLength = 4.0,
            TabThickness = 0.5,
            LeadRadius = 2.0,
            EngraveDepth = 0.3,
            LetterHeight = 4.0,
            TemperatureSwingK = 10.0,
            LocatorPinDiameter = 4.0,
            RunningClearance = 0.25,
        };
}

using System.Globalization;
using FixtureGen.Model;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Holding;

/// <summary>What the judge says about a hold: the first line below a limit, by how much, where, and what would hold there.</summary>
internal sealed class HoldFindings(Run run)
{
    /// <summary>Below this no feed is a remedy: nothing presses.</summary>
    private const double Nothing = 0.02;

    public Motion MotionBehind(Cut cut) => run.Trace.Events[cut.Motion].Motion;

    public HoldPlace? Place(HeldCut? held) =>
        held is { } h ? new HoldPlace(Math.Round(h.Factor, 6), h.Mode, MotionBehind(h.Cut).Line, h.Cut.At) : null;

    /// <param name="share">Of a cut's full force that this question counts, by feed (mm/min) and chip (mm).</param>
    public void Trim(HeldCut? first, HeldCut? worst, double limit, string what, Func<double, double, double> share)
    {
        if (first is not { } cut || worst is not { } least)
        {
            return;
        }
        Motion motion = MotionBehind(cut.Cut);
        double force = cut.Cut.ForceN * share(motion.FeedMmPerMin, cut.Cut.ChipMm);
        string message = Invariant(
            $"factor {Figure(cut.Factor)} on {what}, {Short(limit - cut.Factor):0.00} below the house limit of {limit:0.0#}: {Under(cut, force)} the part would {Verb(cut.Mode)}{Least(cut, least)}"
        );
        string remedy = Remedy(cut, limit, share);
        if (least.Factor >= 1 && run.Job.AcceptLowHold.Length > 0)
        {
            run.Log.Warn("hold-below-limit", motion.Line, message, remedy, cut.Cut.At);
        }
        else
        {
            run.Log.Error("hold-below-limit", motion.Line, message, remedy, cut.Cut.At);
        }
    }

    public void Block(HeldCut? first, HeldCut? worst, double limit)
    {
        if (first is not { } cut || worst is not { } least)
        {
            return;
        }
        string message = Invariant(
            $"factor {Figure(cut.Factor)} of the block on the plate, {Short(limit - cut.Factor):0.00} below {limit:0.0#}: {Under(cut, cut.Cut.ForceN)} it would {Verb(cut.Mode)}{Least(cut, least)}"
        );
        string remedy = Remedy(cut, limit, (_, _) => 1);
        run.Log.Error("block-hold-below-limit", MotionBehind(cut.Cut).Line, message, remedy, cut.Cut.At);
    }

    private string Under(HeldCut cut, double force) =>
        Invariant(
            $"under {force:0.0} N (F {Feed(MotionBehind(cut.Cut).FeedMmPerMin)}, {cut.Cut.DepthMm:0.##} mm deep)"
        );

    /// <summary>
    /// A factor goes the other way in proportion with the force, whatever holds, so that the figures are exact for this line: the
    /// depth in proportion, the feed where the force that counts has come down to what holds. A feed whose chip would only rub is none.
    /// </summary>
    private string Remedy(HeldCut cut, double limit, Func<double, double, double> share)
    {
        if (cut.Factor < Nothing)
        {
            return "Nothing holds the work down here: see to vacuum, magnets or bolts before anything is cut";
        }
        double held = cut.Factor / limit;
        string depth = Invariant($"take no more than {Down(cut.Cut.DepthMm * held, 100):0.00} mm at once");
        double? feed = FeedThatHolds(cut, held, share);
        return (feed, cut.Cut.ByDepth) switch
        {
            ({ } f, true) => $"On this line feed at F {Feed(f)} or less, or {depth}",
            ({ } f, false) => $"On this line feed at F {Feed(f)} or less",
            (null, true) =>
                $"On this line {depth}, in more passes: at a slower feed the chip only rubs and pushes no less",
            _ => "Take less at once on this line: at a feed that holds the chip only rubs",
        };
    }

    private double? FeedThatHolds(HeldCut cut, double held, Func<double, double, double> share)
    {
        double feed = MotionBehind(cut.Cut).FeedMmPerMin;
        double wanted = held * share(feed, cut.Cut.ChipMm);
        (double low, double high) = (0, 1);
        for (int i = 0; i < 40; i++)
        {
            double part = (low + high) / 2;
            (low, high) = part * share(feed * part, cut.Cut.ChipMm * part) <= wanted ? (part, high) : (low, part);
        }
        Tool tool = run.Cutters[MotionBehind(cut.Cut).Tool].Tool;
        double chart = tool.ChipLoadIn(run.Material)?.MinMm ?? FeedChart.Range(run.Material, tool.Diameter).Least;
        bool rubs = cut.Cut.Pattern.Kind == CutKind.Sideways && cut.Cut.ChipMm * low < chart * JudgeRules.SlowChip;
        return low <= 0 || rubs ? null : feed * low;
    }

    private static string Least(HeldCut cut, HeldCut least) =>
        Figure(least.Factor) != Figure(cut.Factor)
            ? Invariant($"; the least is {Figure(least.Factor)} at X {least.Cut.At.X:0.##} Y {least.Cut.At.Y:0.##}")
            : "";

    /// <summary>Two figures, rounded down: 0.94, 1.3, 12.</summary>
    private static string Figure(double factor) =>
        factor >= 10 ? Invariant($"{Down(factor, 1):0}")
        : factor >= 1 ? Invariant($"{Down(factor, 10):0.0}")
        : Invariant($"{Down(factor, 100):0.00}");

    private string Feed(double mmPerMin) =>
        run.Job.Control.Unit == LengthUnit.Inch
            ? Invariant($"{Down(mmPerMin / Units.MmPerInch, 10):0.0} in/min")
            : Invariant($"{Down(mmPerMin, 1):0} mm/min");

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    private static double Down(double value, double per) => Math.Floor((value * per) + 1e-9) / per;

    /// <summary>To a hundredth, upwards.</summary>
    private static double Short(double by) => Math.Ceiling((by * 100) - 1e-9) / 100;

    private static string Verb(HoldMode mode) =>
        mode switch
        {
            HoldMode.Slide => "slide",
            HoldMode.Lift => "lift off",
            HoldMode.Tip => "tip",
            HoldMode.Stop => "break its stop",
        };
}

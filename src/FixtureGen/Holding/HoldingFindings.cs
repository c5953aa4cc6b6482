using FixtureGen.Holding.Magnets;
using FixtureGen.Holding.Seal;
using FixtureGen.Model;

namespace FixtureGen.Holding;

/// <summary>All that holding has to say to people.</summary>
internal static class HoldingFindings
{
    public static Finding NoContact() =>
        new(
            "hold-no-contact",
            Severity.Error,
            "design",
            "The shell rests nowhere on the block (0 mm2 of contact), so nothing can hold it.",
            "Give the part a sealed zone: smaller cord, smaller cutter, or fewer keep-outs."
        );

    public static Finding NoTrim() =>
        new(
            "hold-no-trim",
            Severity.Error,
            "design",
            "There is no trim cut, so there is no load to hold the part against.",
            "Check the outline: the trim follows its finished edge."
        );

    public static Finding AlarmNotReached(VacuumLevel level) =>
        new(
            "vacuum-alarm-high",
            Severity.Warning,
            "job",
            FormattableString.Invariant(
                $"The alarm level of {level.Alarm:0.0} kPa is never reached: the pump settles at {level.Settled:0.0} kPa here (atmosphere {level.Atmosphere:0.0} kPa). Factors are for {level.Used:0.0} kPa."
            ),
            FormattableString.Invariant($"Set the alarm to {0.8 * level.Settled:0} kPa or less, or a stronger pump.")
        );

    public static Finding NeverSeats(double gross, double cord, double level, string wouldDo) =>
        new(
            "seal-never-seats",
            Severity.Error,
            "gasket",
            FormattableString.Invariant(
                $"The cord pushes back with up to {cord:0} N and the vacuum has {gross:0} N at {level:0.0} kPa: the shell never seats, by {cord - gross:0} N."
            ),
            wouldDo
        );

    public static Finding ZoneOpened(string cut, int zone) =>
        new(
            "zone-opened",
            Severity.Warning,
            cut,
            FormattableString.Invariant(
                $"{cut} cuts through into zone {zone + 1}, which has no loop of its own round it: that zone holds 0 N from then on."
            ),
            "Give the cutout its own gasket loop, or keep the zone off it by a land."
        );

    /// <summary>The remedy where nothing was tried.</summary>
    public const string AskCheck = "Save it and run check: it tries what would mend this and says what each gives.";

    public static Finding VacuumLow(HoldAnswer answer, Job job, Severity severity, string remedy) =>
        Low(
            "hold-vacuum-low",
            answer,
            answer.Factor,
            "stay put on vacuum alone",
            job.Limits.VacuumFactor,
            severity,
            remedy
        );

    /// <summary>Where the magnets are the hold.</summary>
    public static Finding MagnetsAloneLow(HoldAnswer answer, Job job, Severity severity, string remedy) =>
        Low(
            "hold-magnets-low",
            answer,
            answer.Factor,
            "stay put on magnets alone",
            job.Limits.VacuumFactor,
            severity,
            remedy
        );

    public static Finding MagnetsLow(HoldAnswer answer, Job job, Severity severity, string remedy) =>
        Low(
            "hold-magnets-low",
            answer,
            answer.Stays,
            "stay on magnets alone while the machine stops",
            job.Limits.MagnetFactor,
            severity,
            remedy
        );

    public static Finding Closed(Dimple d) =>
        new(
            "net-closed",
            Severity.Error,
            d.Feature,
            FormattableString.Invariant(
                $"At the pump's full vacuum the shell sags {d.SagMm:0.00} mm over {d.Feature}, {d.SpanMm:0.0} mm wide and {d.RoomMm:0.00} mm deep: it lies on the floor and shuts the way of the air."
            ),
            "Deepen it (rules.net_depth), or put a narrower net cutter into the changer."
        );

    public static Finding Sags(Dimple d, double widest) =>
        new(
            "shell-sags",
            Severity.Warning,
            d.Feature,
            FormattableString.Invariant(
                $"At the pump's full vacuum the thinnest shell sags {d.SagMm:0.00} mm over {d.Feature}, {d.SpanMm:0.0} mm wide, and is strained by {d.StressMPa:0.0} N/mm2; {Deflection.MostSag:0.0} mm and {Deflection.MostStress:0} N/mm2 leave no mark."
            ),
            FormattableString.Invariant(
                $"{(d.Round ? "An opening" : "A groove")} of at most {widest:0.0} mm sags no more than that; or put a rib or a plug under the shell, or lower the pump's level."
            )
        );

    public static Finding JacketMaySlide(double grip, double wind) =>
        new(
            "jacket-may-slide",
            Severity.Warning,
            "magnets",
            FormattableString.Invariant(
                $"The weakest jacket holds {grip:0.0} times the wind of the spinning tool ({wind:0.00} N at most), {JacketGrip.Least:0} are wanted."
            ),
            "Use stronger or larger discs, a lower jacket, or a slower spindle."
        );

    public static Finding ShiftOverSlack(double shift, double slack) =>
        new(
            "shift-over-slack",
            Severity.Warning,
            "locator",
            FormattableString.Invariant(
                $"Before its stops hold it the shell may shift {shift:0.00} mm at its farthest point, {shift - slack:0.00} mm more than its stated slack of {slack:0.00} mm."
            ),
            "Set the pins farther apart, make their holes closer (rules.locator_hole_clearance), or state the slack as it is."
        );

    public static Finding LowHoldUnneeded() =>
        new(
            "low-hold-unneeded",
            Severity.Note,
            "job",
            "The job accepts a hold below a house limit, but none is below.",
            "Take accept_low_hold out, so that a later change does not pass under it."
        );

    public static Finding MagnetTooThin(MagnetSpec magnet, double permeance) =>
        new(
            "magnet-thin",
            Severity.Note,
            magnet.Name,
            FormattableString.Invariant(
                $"The disc is thin for its diameter (permeance {permeance:0.00}): it may lose strength for good well below its {magnet.MaxTemperatureC:0} C."
            ),
            "Keep it under 60 C, or use a grade with an M or H suffix or a thicker disc."
        );

    public static Finding LiftsOff(double lift, double pull, double cord) =>
        new(
            "seal-lost-lift",
            Severity.Note,
            "magnets",
            FormattableString.Invariant(
                $"With the seal lost the cord ({cord:0} N) lifts the shell {lift:0.00} mm against the magnets' {pull:0} N; it then rests on the cord."
            ),
            "Nothing to do where the factor with the seal lost is enough; more magnets or a softer cord would keep it down."
        );

    private static Finding Low(
        string code,
        HoldAnswer answer,
        double factor,
        string question,
        double limit,
        Severity severity,
        string remedy
    ) =>
        new(
            code,
            severity,
            FormattableString.Invariant($"X{answer.At.X:0.0} Y{answer.At.Y:0.0}"),
            FormattableString.Invariant(
                $"In the worst case the part would {question} up to {factor:0.00} times the load, {limit - factor:0.00} below {Limit(factor, limit)} ({answer.Nominal:0.00} nominal); it would {Words.Verb(answer.Mode)}. Governed by {answer.Governs}; worst with {answer.Corner}."
            ),
            remedy
        )
        {
            At = answer.At,
        };

    private static string Limit(double factor, double limit) =>
        factor < 1
            ? FormattableString.Invariant($"the house limit of {limit:0.00}, and below 1 the part moves")
            : FormattableString.Invariant($"the house limit of {limit:0.00}");
}

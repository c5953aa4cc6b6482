using System.Collections.Immutable;
using System.Globalization;
using FixtureGen.Design.Block;
using FixtureGen.Model;

namespace FixtureGen.Toolpaths;

/// <summary>The words the programs say to the operator. The trim program's first line is the fixture's label.</summary>
internal static class OperatorText
{
    /// <summary>A length that is off a tenth by less is that tenth.</summary>
    private const double Rounding = 1e-6;

    /// <summary>How many lines at the start name the fixture and its label: the judge wants them first.</summary>
    public static int LabelLines(Setup setup) => setup == Setup.Trim ? 1 : 2;

    public static ImmutableArray<string> Block(FixtureDesign design, Job job, Setup setup)
    {
        string side = setup == Setup.Underside ? "UNDERSIDE" : "TOP";
        return
        [
            Text($"{job.FixtureId} REV {job.Revision} BLOCK {side}"),
            Text($"PROGRAM {ProgramNumbers.ForSetup(job, setup)} FOR FIXTURE {design.Label}"),
            Text($"BLANK {job.Blank.Description}, {Thickness(design, job)}"),
            "RAW BLOCK AGAINST ALL STOPS",
            setup == Setup.Top && design.Flip is not null
                ? "UNDERSIDE CUT FIRST AND BLOCK TURNED OVER"
                : Text($"{side} UP"),
            "PINS OUT",
            "BOLTS OUT",
            Level(job),
            .. Cautions("STOP IF THE VACUUM FALLS"),
        ];
    }

    public static ImmutableArray<string> Trim(FixtureDesign design, Job job) =>
        [
            design.Label,
            Text($"PROGRAM {ProgramNumbers.ForSetup(job, Setup.Trim)} TRIM {job.Title}"),
            Text($"{design.Magnets.Length} MAGNETS ON THE SHELL, NONE LEFT ON THE RAIL"),
            "PINS IN, BOLTS IN",
            .. Hold(job),
            Job(job.Skirt),
            .. Cautions(job.HoldBy == HoldBy.Magnets ? "STOP IF THE SHELL STIRS" : "STOP IF THE VACUUM FALLS"),
        ];

    /// <summary>What holds the shell, and what of it is looked at before the start.</summary>
    private static string[] Hold(Job job) =>
        job.HoldBy == HoldBy.Magnets
            ? ["SHELL HELD BY MAGNETS ALONE", "DO NOT START WITH ONE MISSING"]
            : [Level(job), "DO NOT START BELOW THAT LEVEL"];

    /// <summary>What the operator does before the plate's seal is broken.</summary>
    public static string BoltsIn(FixtureDesign design, Job job)
    {
        string names = string.Join(" ", job.Plate.Bolts.Select(b => b.Name));
        // a control without a word for it leaves the valve to the operator
        string off = job.Control.VacuumOff.Length == 0 ? "VACUUM OFF. " : "";
        return Text(
            $"VACUUM STAYS ON UNTIL THE BOLTS ARE TIGHT. PINS OUT. THREADS AND SOCKETS FREE OF CHIPS. FIT {job.Plate.Bolts.Count()} BOLTS ({names}), {job.Bolt.Description}, {Length(design, job)}KEY {job.Bolt.KeyEngagement:0.0} MM INTO THE HEAD, TO {job.Bolt.TorqueNm:0.0} NM. {off}THEN START"
        );
    }

    /// <summary>Tenths of a millimetre, rounded to the safe side.</summary>
    private static string Length(FixtureDesign design, Job job) =>
        ScrewReach.For(design, job) is { } reach
            ? Text(
                $"{Math.Ceiling((reach.Shortest * 10) - Rounding) / 10:0.0} TO {Math.Floor((reach.Longest * 10) + Rounding) / 10:0.0} MM LONG, {reach.Turns} FULL TURNS IN THE THREAD AT LEAST, "
            )
            : "";

    public static string Vacuum(Job job) => Text($"VACUUM AT LEAST {job.Vacuum.AlarmKPa:0} KPA");

    public const string PortNext = "PORT NEXT. BOLTS HOLD THE BLOCK, VACUUM OFF";

    /// <summary>What the operator looks at before the shell is cut; the wait for the vacuum came before.</summary>
    public static string CountMagnets(FixtureDesign design, Job job) =>
        job.HoldBy == HoldBy.Magnets
            ? Text($"LOOK AT THE SHELL'S SEAT, COUNT {design.Magnets.Length} MAGNETS ON THE SHELL. THEY ALONE HOLD IT")
        : design.Magnets.IsEmpty ? "LOOK AT THE VACUUM AND THE SHELL'S SEAT"
        : Text($"LOOK AT THE VACUUM, COUNT {design.Magnets.Length} MAGNETS ON THE SHELL");

    /// <summary>What was measured, or what is safe to find when the operator measures.</summary>
    private static string Thickness(FixtureDesign design, Job job) =>
        job.BlockMeasured
            ? Text($"{job.BlankThickness:0.00} MM THICK AS MEASURED")
            : Text($"MEASURE IT, {design.BlankLeastSafe(job):0.00} TO {job.BlankThickest:0.00} MM THICK IS SAFE");

    private static string Level(Job job) =>
        Text(
            $"VACUUM TO SEE BEFORE START {job.Vacuum.AlarmKPa:0} KPA ({job.Vacuum.AlarmKPa / Units.KPaPerInHg:0.0} INHG)"
        );

    private static string Job(SkirtHold skirt) =>
        skirt switch
        {
            SkirtHold.Tabs => "SKIRT HELD BY TABS",
            SkirtHold.SealedLand => "SKIRT HELD BY ITS OWN SEAL",
            SkirtHold.Clamps => "SKIRT CLAMPED",
            SkirtHold.None => "NO SKIRT: CUT AWAY BEFORE",
        };

    /// <summary>The usual cautions; estimates are no guarantee.</summary>
    private static IEnumerable<string> Cautions(string stop) =>
        ["DRY RUN IN THE AIR FIRST. DOORS SHUT. EYE PROTECTION", stop, "MAGNETS: KEEP IMPLANTS AWAY"];

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}

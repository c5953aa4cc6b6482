using System.Text.Json;
using System.Text.Json.Serialization;
using FixtureGen.Model;

namespace FixtureGen.Output;

/// <summary>JOB.report.json: the contract with whoever reads a job's result by machine. Keys are fixed; lengths mm, areas mm2, forces N, levels kPa.</summary>
public sealed record Report(
    string Job,
    bool Ok,
    IReadOnlyList<FindingLine> Findings,
    PartFacts? Part,
    PlacementFacts? Placement,
    FeatureFacts? Features,
    HoldingFacts? Holding,
    IReadOnlyList<ProgramFacts>? Programs,
    VerifyFacts? Verify,
    string Generator,
    int Revision,
    IReadOnlyList<InputFacts>? Inputs,
    IReadOnlyList<FileFacts>? Files,
    IReadOnlyList<BlockHoldFacts>? BlockHolding
)
{
    /// <summary>What the shell is trimmed with; null where the run stopped before the holding answer.</summary>
    public TrimFacts? Trim { get; init; }

    /// <summary>The plate the fixture is made for; null where the run stopped before the holding answer.</summary>
    public PlateFacts? Plate { get; init; }

    /// <summary>The fixture's own id, as the label has it; null as above.</summary>
    public string? FixtureId { get; init; }
}

/// <summary>A master plate and the revision its file states.</summary>
public sealed record PlateFacts(string Name, int Revision);

/// <summary>CutDirection is up, down or straight; Stated says that the job named the cutter. Trials are in the order of preference.</summary>
public sealed record TrimFacts(
    string Cutter,
    string CutDirection,
    bool Stated,
    string Reason,
    IReadOnlyList<DirectionFacts> Trials
);

/// <summary>AxialN above 0 pulls the shell off the block. Cutter is empty where the changer has none of that direction.</summary>
public sealed record DirectionFacts(
    string Direction,
    string Cutter,
    double AxialN,
    double VacuumOnly,
    double MagnetsStopping,
    bool MeetsLimits
);

/// <summary>A file that the result was made from, with the SHA-256 of its bytes, lower-case hex: what staleness is judged by.</summary>
public sealed record InputFacts(string File, string Sha256);

/// <summary>An output file beside the report and its length, so that a missing or altered one is noticed.</summary>
public sealed record FileFacts(string File, long Bytes);

/// <summary>How well the block is held in one operation of its own making.</summary>
public sealed record BlockHoldFacts(string Operation, double Factor, string Mode, bool Bolted);

public sealed record FindingLine(
    string Code,
    string Severity,
    string Where,
    string Message,
    string Remedy,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)] int? Line
)
{
    public static FindingLine Of(Finding f) => new(f.Code, Words.Of(f.Severity), f.Where, f.Message, f.Remedy, f.Line);
}

/// <summary>AreaMm2 is net of cutouts, PerimeterMm the outline's own, BoundsMm in the drawing's axes.</summary>
public sealed record PartFacts(double AreaMm2, double PerimeterMm, IReadOnlyList<double> BoundsMm, int Cutouts);

public sealed record PlacementFacts(
    double XMm,
    double YMm,
    double AngleDeg,
    string Blank,
    string BlankMaterial,
    double BlankWidthMm
);

public sealed record LoopFacts(double LengthMm);

public sealed record PlaceFacts(double XMm, double YMm);

public sealed record FeatureFacts(
    double SealedAreaMm2,
    IReadOnlyList<LoopFacts> GasketLoops,
    double CordLengthMm,
    IReadOnlyList<PlaceFacts> Magnets,
    IReadOnlyList<PlaceFacts> Bolts,
    IReadOnlyList<PlaceFacts> Pins,
    IReadOnlyList<PlaceFacts> Ports,
    int Zones,
    string Label
);

public sealed record AnswerFacts(double Factor, string Mode, double XMm, double YMm, string Governs);

public sealed record HoldingFacts(
    [property: JsonPropertyName("vacuumKPa")] double VacuumKPa,
    [property: JsonPropertyName("pumpKPa")] double PumpKPa,
    [property: JsonPropertyName("atmosphereKPa")] double AtmosphereKPa,
    double SealedForceN,
    double GasketForceN,
    double MagnetForceN,
    double CuttingForceN,
    double LiftMm,
    double ImplantDistanceMm,
    AnswerFacts VacuumOnly,
    AnswerFacts MagnetsOnly,
    AnswerFacts MagnetsStopping,
    AnswerFacts Both
);

public sealed record ProgramFacts(
    string File,
    string Setup,
    int ProgramNumber,
    int Lines,
    int Arcs,
    double Minutes,
    double CutMm,
    double RapidMm,
    IReadOnlyList<string> Tools
);

public sealed record VerifyFacts(
    bool Ok,
    double CellMm,
    double MaxGougeDepthMm,
    double MaxGougeSideMm,
    double MaxLeftoverMm
);

/// <summary>The words the contract uses for enums.</summary>
public static class Words
{
    public static string Of(Severity s) =>
        s switch
        {
            Severity.Note => "note",
            Severity.Warning => "warning",
            _ => "error",
        };

    public static string Of(Setup s) =>
        s switch
        {
            Setup.Underside => "underside",
            Setup.Top => "top",
            _ => "trim",
        };

    public static string Of(HelixDirection h) =>
        h switch
        {
            HelixDirection.Up => "up",
            HelixDirection.Down => "down",
            _ => "straight",
        };

    public static string Of(HoldMode m) =>
        m switch
        {
            HoldMode.Slide => "slide",
            HoldMode.Lift => "lift",
            _ => "tip",
        };
}

[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    WriteIndented = true,
    NewLine = "\n",
    DefaultIgnoreCondition = JsonIgnoreCondition.Never
)]
[JsonSerializable(typeof(Report))]
public sealed partial class ReportJson : JsonSerializerContext
{
    public static string Text(Report report) => JsonSerializer.Serialize(report, Default.Report) + "\n";
}

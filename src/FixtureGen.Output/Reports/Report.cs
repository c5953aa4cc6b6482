using System.Text.Json;
using System.Text.Json.Serialization;
using FixtureGen.Model;

namespace FixtureGen.Output.Reports;

/// <summary>
/// JOB.report.json: the contract with whoever reads a job's result by machine. The property names are its keys in camel
/// case and are fixed; lengths mm, areas mm2, forces N, levels kPa. A section that the run did not reach is null.
/// </summary>
public sealed record Report
{
    /// <summary>The job file's name without .toml.</summary>
    public required string Job { get; init; }

    /// <summary>True where everything was made and no finding is an error.</summary>
    public required bool Ok { get; init; }

    /// <summary>All of the run, in the order of its steps.</summary>
    public required IReadOnlyList<FindingLine> Findings { get; init; }

    /// <summary>What the drawing shows; null where the run stopped before the holding answer.</summary>
    public PartFacts? Part { get; init; }

    /// <summary>Null as above.</summary>
    public PlacementFacts? Placement { get; init; }

    /// <summary>Null as above.</summary>
    public FeatureFacts? Features { get; init; }

    /// <summary>Forms of the shell that lie in the seal; null as above.</summary>
    public IReadOnlyList<FormFacts>? Forms { get; init; }

    /// <summary>Null as above.</summary>
    public HoldingFacts? Holding { get; init; }

    /// <summary>In the order of running; null where nothing was judged, as in a check.</summary>
    public IReadOnlyList<ProgramFacts>? Programs { get; init; }

    /// <summary>The judge's answer for all programs; null where nothing was judged.</summary>
    public VerifyFacts? Verify { get; init; }

    /// <summary>The version that made it.</summary>
    public required string Generator { get; init; }

    /// <summary>The fixture's, from 1; 0 where the job's files could not be read.</summary>
    public required int Revision { get; init; }

    /// <summary>Every file that was really read; null where nothing was made.</summary>
    public IReadOnlyList<InputFacts>? Inputs { get; init; }

    /// <summary>Every output file but the report itself; null where nothing was made.</summary>
    public IReadOnlyList<FileFacts>? Files { get; init; }

    /// <summary>By operation, in the order of cutting; null where nothing was made.</summary>
    public IReadOnlyList<BlockHoldFacts>? BlockHolding { get; init; }

    /// <summary>What the shell is trimmed with; null where the run stopped before the holding answer.</summary>
    public TrimFacts? Trim { get; init; }

    /// <summary>What was chosen, the next best and what would mend a hold that is too low; null where the run stopped before the holding answer.</summary>
    public SolveFacts? Solve { get; init; }

    /// <summary>Cutters that the rack does not have and that would save time on the block, the most first; null where nothing was made.</summary>
    public IReadOnlyList<MissingCutterFacts>? MissingCutters { get; init; }

    /// <summary>The plate the fixture is made for; null where the run stopped before the holding answer.</summary>
    public PlateFacts? Plate { get; init; }

    /// <summary>The fixture's own id, as the label has it; null as above.</summary>
    public string? FixtureId { get; init; }
}

/// <summary>Kind as tools/ states it, size in mm, minutes saved on one block.</summary>
public sealed record MissingCutterFacts(string Kind, double DiameterMm, double Minutes);

/// <summary>
/// What a form bears of the pump's full vacuum: BucklingMargin is the pressure that it buckles or first yields at over that, at most
/// 999; StressMPa bends its flat top or wall. Plug is raised where the block carries it, else none.
/// </summary>
public sealed record FormFacts(
    double ProjectedMm2,
    double HeightMm,
    double ThicknessMm,
    double BucklingMargin,
    double TopSagMm,
    double StressMPa,
    string Plug
);

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
)
{
    /// <summary>Staying put on magnets alone under the full load, where they are the hold; else null.</summary>
    public double? MagnetsOnly { get; init; }
}

/// <summary>An output file beside the report with its length and SHA-256 (hexadecimal; null in reports of before), so that a missing or altered one is noticed.</summary>
public sealed record FileFacts(string File, long Bytes, string? Sha256 = null);

/// <summary>How well the block is held in one operation of its own making.</summary>
public sealed record BlockHoldFacts(string Operation, double Factor, string Mode, bool Bolted);

/// <summary>A finding as the report has it.</summary>
/// <param name="Code">The short stable word of README's table.</param>
/// <param name="Severity">note, warning or error.</param>
/// <param name="Where">A file with line and column, or a place in the part, block or program.</param>
/// <param name="Message">What is wrong and by how much.</param>
/// <param name="Remedy">What to do; never empty.</param>
/// <param name="Line">1-based line of the program or file; the key is left out where none applies.</param>
public sealed record FindingLine(
    string Code,
    string Severity,
    string Where,
    string Message,
    string Remedy,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)] int? Line
)
{
    /// <summary>The finding without its place in mm, which the message says.</summary>
    public static FindingLine From(Finding f) =>
        new(f.Code, Words.For(f.Severity), f.Where, f.Message, f.Remedy, f.Line);
}

/// <summary>AreaMm2 is net of cutouts, PerimeterMm the outline's own, BoundsMm in the drawing's axes.</summary>
public sealed record PartFacts(double AreaMm2, double PerimeterMm, IReadOnlyList<double> BoundsMm, int Cutouts);

/// <summary>Where the part lies on which blank, plate frame.</summary>
/// <param name="XMm">Where the drawing's origin comes to lie.</param>
/// <param name="YMm">Where the drawing's origin comes to lie.</param>
/// <param name="AngleDeg">How far the drawing is turned about its origin, counter-clockwise positive.</param>
/// <param name="Blank">Name of the blank's file.</param>
/// <param name="BlankMaterial">Name of the material's file.</param>
/// <param name="BlankWidthMm">The blank's nominal extent along X.</param>
public sealed record PlacementFacts(
    double XMm,
    double YMm,
    double AngleDeg,
    string Blank,
    string BlankMaterial,
    double BlankWidthMm
);

/// <summary>One cord in its groove.</summary>
/// <param name="LengthMm">Once round the groove's centre line.</param>
public sealed record LoopFacts(double LengthMm);

/// <summary>The middle of a round thing, plate frame.</summary>
/// <param name="XMm">From the plate's origin.</param>
/// <param name="YMm">From the plate's origin.</param>
public sealed record PlaceFacts(double XMm, double YMm);

/// <summary>What the block is given.</summary>
public sealed record FeatureFacts
{
    /// <summary>What the vacuum acts on, within the inner walls of the part's gasket grooves and the reach of its net; zones of the skirt do not count.</summary>
    public required double SealedAreaMm2 { get; init; }

    /// <summary>Every cord, those of the skirt last.</summary>
    public required IReadOnlyList<LoopFacts> GasketLoops { get; init; }

    /// <summary>What all cords are cut to together, with the allowance for the joint.</summary>
    public required double CordLengthMm { get; init; }

    /// <summary>One for each pair.</summary>
    public required IReadOnlyList<PlaceFacts> Magnets { get; init; }

    /// <summary>Bolt holes of the block.</summary>
    public required IReadOnlyList<PlaceFacts> Bolts { get; init; }

    /// <summary>The round hole first, then the slot's middle.</summary>
    public required IReadOnlyList<PlaceFacts> Pins { get; init; }

    /// <summary>Vacuum holes of the block, not of the plate.</summary>
    public required IReadOnlyList<PlaceFacts> Ports { get; init; }

    /// <summary>How many sealed zones hold the part.</summary>
    public required int Zones { get; init; }

    /// <summary>The engraved text.</summary>
    public required string Label { get; init; }

    /// <summary>Sealed area that the vacuum's net does not reach and that does not count; null where it reaches all.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? UnreachedAreaMm2 { get; init; }
}

/// <summary>How well the part is held in one way, at the worst point of the trim.</summary>
/// <param name="Factor">The load multiplier at which the part gives way in the worst case, 0 to 999: at 1 it just holds.</param>
/// <param name="Mode">slide, lift, tip or stop: how it gives way first.</param>
/// <param name="XMm">The worst point, plate frame.</param>
/// <param name="YMm">The worst point, plate frame.</param>
/// <param name="Governs">In words, what sets the factor there.</param>
public sealed record AnswerFacts(double Factor, string Mode, double XMm, double YMm, string Governs)
{
    /// <summary>The same with every range at its nominal value, for information.</summary>
    public double Nominal { get; init; }

    /// <summary>The multiplier at which it gives way once it has slipped onto its stops; never below Factor.</summary>
    public double Stays { get; init; }

    /// <summary>How it gives way then.</summary>
    public string StaysMode { get; init; } = "";

    /// <summary>In words, which ends of the ranges are the worst case.</summary>
    public string Corner { get; init; } = "";
}

/// <summary>Something that stops the shell once it has slipped by ClearanceMm, plate frame; Kind is pin, slot, tab or wall.</summary>
public sealed record StopFacts(string Kind, string Name, double XMm, double YMm, double ClearanceMm, double StrengthN);

/// <summary>The shell bent by the pump's full vacuum over an opening of the block.</summary>
/// <param name="Feature">The opening's name.</param>
/// <param name="SpanMm">A groove's width or a pocket's diameter.</param>
/// <param name="SagMm">How far the shell sinks in.</param>
/// <param name="RoomMm">How deep the opening is below it.</param>
/// <param name="StressMPa">The greatest bending stress, N/mm2.</param>
public sealed record DimpleFacts(
    string Feature,
    double SpanMm,
    double SagMm,
    double RoomMm,
    [property: JsonPropertyName("stressMPa")] double StressMPa
);

/// <summary>The holding answer. Levels are vacuum (gauge).</summary>
public sealed record HoldingFacts
{
    /// <summary>vacuum or magnets: what holds the shell while it is trimmed. Where it is magnets, VacuumOnly is 0 and MagnetsOnly has the house limit.</summary>
    public string HeldBy { get; init; } = "vacuum";

    /// <summary>The level that the factors are for: the alarm level, or what there is where that is less.</summary>
    [JsonPropertyName("vacuumKPa")]
    public required double VacuumKPa { get; init; }

    /// <summary>What the pump settles at with the stated leak, at the shop's altitude.</summary>
    [JsonPropertyName("pumpKPa")]
    public required double PumpKPa { get; init; }

    /// <summary>The local atmosphere (absolute).</summary>
    [JsonPropertyName("atmosphereKPa")]
    public required double AtmosphereKPa { get; init; }

    /// <summary>Vacuum on the sealed area; the cords' push is not taken off.</summary>
    public required double SealedForceN { get; init; }

    /// <summary>What the cords push back with the shell down.</summary>
    public required double GasketForceN { get; init; }

    /// <summary>Derated pull of all pairs together; 0 without magnets.</summary>
    public required double MagnetForceN { get; init; }

    /// <summary>The greatest load along the shell of any cut, cutter dull.</summary>
    public required double CuttingForceN { get; init; }

    /// <summary>How high the cords hold the shell up on the magnets alone, once the seal is lost; 0 without magnets.</summary>
    public required double LiftMm { get; init; }

    /// <summary>Where the field of all discs together has fallen to 0.5 mT; 0 without magnets.</summary>
    public required double ImplantDistanceMm { get; init; }

    /// <summary>Full cutting load, no magnets.</summary>
    public required AnswerFacts VacuumOnly { get; init; }

    /// <summary>Full cutting load, seal lost.</summary>
    public required AnswerFacts MagnetsOnly { get; init; }

    /// <summary>The load left while the machine stops, seal lost.</summary>
    public required AnswerFacts MagnetsStopping { get; init; }

    /// <summary>Full cutting load; its factor is never below either alone.</summary>
    public required AnswerFacts Both { get; init; }

    /// <summary>What stops the shell once it slips; empty where nothing does.</summary>
    public IReadOnlyList<StopFacts> Stops { get; init; } = [];

    /// <summary>How far the shell may shift before its stops hold it; 0 where it has none.</summary>
    public double ShiftMm { get; init; }

    /// <summary>Where the shell sinks into the block's openings.</summary>
    public IReadOnlyList<DimpleFacts> Dimples { get; init; } = [];

    /// <summary>How many times over the weakest jacket holds against the wind of the tool; 999 without magnets.</summary>
    public double JacketGrip { get; init; }
}

/// <summary>One program as the judge read it back.</summary>
public sealed record ProgramFacts
{
    /// <summary>Name beside the report.</summary>
    public required string File { get; init; }

    /// <summary>underside, top or trim.</summary>
    public required string Setup { get; init; }

    /// <summary>The control's number for it.</summary>
    public required int ProgramNumber { get; init; }

    /// <summary>Of the program text.</summary>
    public required int Lines { get; init; }

    /// <summary>G2 and G3 motions.</summary>
    public required int Arcs { get; init; }

    /// <summary>Tool changes and accelerations included.</summary>
    public required double Minutes { get; init; }

    /// <summary>Length of all motions at feed.</summary>
    public required double CutMm { get; init; }

    /// <summary>Length of all rapids.</summary>
    public required double RapidMm { get; init; }

    /// <summary>Names, by rising number in the changer.</summary>
    public required IReadOnlyList<string> Tools { get; init; }
}

/// <summary>The judge's answer for all programs together, measured on the carved block and on the cutter's envelope.</summary>
/// <param name="Ok">No error finding, gouges and left-over within the judge's limits.</param>
/// <param name="CellMm">Side of a cell of the carved block.</param>
/// <param name="MaxGougeDepthMm">How far a floor was cut too deep; 0 for none.</param>
/// <param name="MaxGougeSideMm">How far a wall was cut into; 0 for none.</param>
/// <param name="MaxLeftoverMm">Material left above the design as the smallest tool could cut it; 0 for none.</param>
public sealed record VerifyFacts(
    bool Ok,
    double CellMm,
    double MaxGougeDepthMm,
    double MaxGougeSideMm,
    double MaxLeftoverMm
);

/// <summary>The report as JSON, without reflection, so that it can be compiled ahead of time.</summary>
[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    WriteIndented = true,
    NewLine = "\n",
    DefaultIgnoreCondition = JsonIgnoreCondition.Never
)]
[JsonSerializable(typeof(Report))]
public sealed partial class ReportJson : JsonSerializerContext
{
    /// <summary>Indented by two, lines ended by a line feed also on Windows; the same report gives the same bytes.</summary>
    public static string Text(Report report) => JsonSerializer.Serialize(report, Default.Report) + "\n";
}

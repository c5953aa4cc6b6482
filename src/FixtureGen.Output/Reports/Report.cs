using System.Text.Json;
using System.Text.Json.Serialization;
using FixtureGen.Model;

namespace FixtureGen.Output.Reports;

/// <summary>
/// JOB.report.json: the contract with whoever reads a job's result by machine. The property names are its keys in camel
/// case and are fixed; lengths mm, areas mm2, forces N, levels kPa. A section that the run did not reach is null.
/// </summary>
/// <param name="Job">The job file's name without .toml.</param>
/// <param name="Ok">True where everything was made and no finding is an error.</param>
/// <param name="Findings">All of the run, in the order of its steps.</param>
/// <param name="Part">What the drawing shows; null where the run stopped before the holding answer.</param>
/// <param name="Placement">Null as above.</param>
/// <param name="Features">Null as above.</param>
/// <param name="Holding">Null as above.</param>
/// <param name="Programs">In the order of running; null where nothing was judged, as in a check.</param>
/// <param name="Verify">The judge's answer for all programs; null where nothing was judged.</param>
/// <param name="Generator">The version that made it.</param>
/// <param name="Revision">The fixture's, from 1; 0 where the job's files could not be read.</param>
/// <param name="Inputs">Every file that was really read; null where nothing was made.</param>
/// <param name="Files">Every output file but the report itself; null where nothing was made.</param>
/// <param name="BlockHolding">By operation, in the order of cutting; null where nothing was made.</param>
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

/// <summary>An output file beside the report and its length, so that a missing or altered one is noticed.</summary>
public sealed record FileFacts(string File, long Bytes);

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
/// <param name="SealedAreaMm2">What the vacuum acts on, within the inner walls of the part's gasket grooves and the reach of its net; zones of the skirt do not count.</param>
/// <param name="GasketLoops">Every cord, those of the skirt last.</param>
/// <param name="CordLengthMm">What all cords are cut to together, with the allowance for the joint.</param>
/// <param name="Magnets">One for each pair.</param>
/// <param name="Bolts">Bolt holes of the block.</param>
/// <param name="Pins">The round hole first, then the slot's middle.</param>
/// <param name="Ports">Vacuum holes of the block, not of the plate.</param>
/// <param name="Zones">How many sealed zones hold the part.</param>
/// <param name="Label">The engraved text.</param>
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
)
{
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
/// <param name="VacuumKPa">The level the factors are reckoned at: the alarm level, or what there is where that is less.</param>
/// <param name="PumpKPa">What the pump settles at with the stated leak, at the shop's altitude.</param>
/// <param name="AtmosphereKPa">The local atmosphere (absolute).</param>
/// <param name="SealedForceN">Vacuum on the sealed area; the cords' push is not taken off.</param>
/// <param name="GasketForceN">What the cords push back with the shell down.</param>
/// <param name="MagnetForceN">Derated pull of all pairs together; 0 without magnets.</param>
/// <param name="CuttingForceN">The greatest load along the shell of any cut, cutter dull.</param>
/// <param name="LiftMm">How high the cords hold the shell up on the magnets alone, once the seal is lost; 0 without magnets.</param>
/// <param name="ImplantDistanceMm">Where the field of all discs together has fallen to 0.5 mT; 0 without magnets.</param>
/// <param name="VacuumOnly">Full cutting load, no magnets.</param>
/// <param name="MagnetsOnly">Full cutting load, seal lost.</param>
/// <param name="MagnetsStopping">The load left while the machine stops, seal lost.</param>
/// <param name="Both">Full cutting load; its factor is never below either alone.</param>
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
)
{
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
/// <param name="File">Name beside the report.</param>
/// <param name="Setup">underside, top or trim.</param>
/// <param name="ProgramNumber">The control's number for it.</param>
/// <param name="Lines">Of the program text.</param>
/// <param name="Arcs">G2 and G3 motions.</param>
/// <param name="Minutes">Tool changes and accelerations included.</param>
/// <param name="CutMm">Length of all motions at feed.</param>
/// <param name="RapidMm">Length of all rapids.</param>
/// <param name="Tools">Names, by rising number in the changer.</param>
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

using System.Text.Json.Serialization;
using FixtureGen.Output.Reports;

namespace FixtureGen.App.Page.Layout;

/// <summary>Diameters of the magnet and of its jacket, mm.</summary>
internal sealed record MagnetSizes(double Diameter, double Jacket);

/// <summary>Where a zone's air leaves (plate frame mm), and into what.</summary>
internal sealed record FedZone(int Zone, double X, double Y, string Feeds);

/// <summary>The house limits of the hold.</summary>
internal sealed record HouseLimits(double Vacuum, double Magnets);

/// <summary>A shape of the plan; its curves stand under the key.</summary>
internal sealed record ShapeAnswer(string Kind, string Name, string Key);

/// <summary>A setting as the page shows it, with the job's own value: a choice of words, or a figure in a range.</summary>
internal sealed record SettingField
{
    public required string Key { get; init; }

    public required string Name { get; init; }

    public required string Unit { get; init; }

    public double Min { get; init; }

    public double Max { get; init; }

    public double Step { get; init; }

    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string[]? Choices { get; init; }

    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? Choice { get; init; }

    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? Figure { get; init; }
}

/// <summary>
/// What the page needs once. Box is the blank's min X, min Y, max X, max Y; Hash is of every file that the answers depend on.
/// Findings are errors of the job as it stands: its magnets are then where it states them, whether they can be there or not.
/// </summary>
internal sealed record LayoutState
{
    public required string Job { get; init; }

    public required string Title { get; init; }

    public required string Unit { get; init; }

    public required double[] Box { get; init; }

    public required MagnetSizes Magnet { get; init; }

    /// <summary>Where the part lies; Stated says that the job itself says so.</summary>
    public required PagePlacement Placed { get; init; }

    public required bool PlacementStated { get; init; }

    /// <summary>The middle of the part's box, plate frame mm: what it is turned about.</summary>
    public required double[] Middle { get; init; }

    public required PageMagnet[] Magnets { get; init; }

    public required PagePort[] Ports { get; init; }

    public required FedZone[] Fed { get; init; }

    public required HouseLimits Limits { get; init; }

    public required SettingField[] Settings { get; init; }

    public required ShapeAnswer[] Shapes { get; init; }

    public required Dictionary<string, string> Curves { get; init; }

    public required string JobFile { get; init; }

    public required string Hash { get; init; }

    public required FindingLine[] Findings { get; init; }
}

/// <summary>A clearance that is not kept: by how much, and between which two points (plate frame mm).</summary>
internal sealed record Violation
{
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public int? Magnet { get; init; }

    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public int? Port { get; init; }

    public required string Other { get; init; }

    public required double AmountMm { get; init; }

    public required string Message { get; init; }

    public required double[] A { get; init; }

    public required double[] B { get; init; }
}

/// <summary>Three numbers for each step along one cut of the trim.</summary>
internal sealed record CutValues(
    [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)] string? Cut,
    double[] Values
);

/// <summary>
/// A try: factors, shares of the magnets (N), clearances. A layout that cannot be cut has no factors, no shares and no path, since
/// nothing would be held by it. Trace is for each cut x, y, load (N) of every step, and is left out
/// where the page has it; Path is for each cut the factors vacuum, stopping, both of every step. Curves are those that the
/// page has not got.
/// </summary>
internal sealed record TryAnswer
{
    public required HoldingFacts? Factors { get; init; }

    public required double[] Shares { get; init; }

    public required double MagnetForceN { get; init; }

    public required PagePlacement Placed { get; init; }

    public required double[] Middle { get; init; }

    public required Violation[] Violations { get; init; }

    public required FedZone[] Fed { get; init; }

    public required FindingLine[] Findings { get; init; }

    public required MagnetSizes Magnet { get; init; }

    public required ShapeAnswer[] Shapes { get; init; }

    public required Dictionary<string, string> Curves { get; init; }

    public required string TraceKey { get; init; }

    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public CutValues[]? Trace { get; init; }

    public required CutValues[] Path { get; init; }
}

/// <summary>Places that the optimiser chose.</summary>
internal sealed record PlacesAnswer(PageMagnet[] Magnets, string Message);

/// <summary>Where a magnet's middle may be with the others where they are: SVG data of the cells, plate frame mm, Y up.</summary>
internal sealed record GroundAnswer(string Path);

/// <summary>
/// A layout that was kept beside the job. Name is empty for one of the history, which every save adds to; At is UTC, ISO 8601 to the
/// second. Magnets and ports lie on the plate as Placed has the part; Placement is null where the job had it.
/// </summary>
internal sealed record KeptLayout
{
    public required string Name { get; init; }

    public required string At { get; init; }

    public required string Factors { get; init; }

    public required PageMagnet[] Magnets { get; init; }

    public required PagePort[] Ports { get; init; }

    public required PageSettings Settings { get; init; }

    public PagePlacement? Placement { get; init; }

    public required PagePlacement Placed { get; init; }
}

/// <summary>All of them, the newest last.</summary>
internal sealed record KeptLayouts(KeptLayout[] Layouts);

/// <summary>A floor's figure: S along the section, Z of the floor, mm.</summary>
internal sealed record SectionNote(double S, double Z, string Text);

/// <summary>The block cut: Solid is outlines of (way along the line, Z), ShellRuns stretches of the way, mm.</summary>
internal sealed record SectionAnswer(
    double Height,
    double Shell,
    double[][][] Solid,
    double[][] ShellRuns,
    SectionNote[] Notes
);

/// <summary>The layout was not written because these clearances are not kept.</summary>
internal sealed record BlockedAnswer(string Message, Violation[] Violations);

/// <summary>Whether the files are still those that the page read; Changes names those that are not, in words.</summary>
internal sealed record PulseAnswer(string Hash, string[] Changes);

/// <summary>The job was written; Hash is of every file that the answers depend on, as they are now.</summary>
internal sealed record SavedAnswer(string Message, string Hash);

/// <summary>The step of a make that runs; empty where none does.</summary>
internal sealed record StepAnswer(string Step);

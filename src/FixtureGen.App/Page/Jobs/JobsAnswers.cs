using System.Text.Json.Serialization;
using FixtureGen.App.Page.Layout;
using FixtureGen.Output.Reports;

namespace FixtureGen.App.Page.Jobs;

/// <summary>A closed loop as it was drawn, in the drawing's axes: Path is SVG data, Y up. Role is what it looks like having.</summary>
internal sealed record LoopLook(
    string Path,
    string Layer,
    string Role,
    int Depth,
    double AreaMm2,
    double PerimeterMm,
    bool Clean
);

/// <summary>A chain that does not close: Ends are x, y of both ends.</summary>
internal sealed record GapLook(string Path, string Layer, double GapMm, double[] Ends);

/// <summary>A role that a layer looks like having.</summary>
internal sealed record RoleLook(string Layer, string Role, int Closed, int Open);

/// <summary>A finding with its place where it has one, in the frame of the picture beside it, mm.</summary>
internal sealed record PlacedFinding(
    string Code,
    string Severity,
    string Where,
    string Message,
    string Remedy,
    int? Line,
    double[]? At
);

/// <summary>What only the shop knows, as it may be offered: the shop's plastics and what the newest job answered.</summary>
internal sealed record AnswersOffered(string[] Shells, string Shell, string Thickness, string Slack, string Locator)
{
    /// <summary>The question about cutouts that no cutter fits into; empty where there is none.</summary>
    public required string AskHoles { get; init; }

    /// <summary>The question about inner corners that no cutter reaches; empty where there is none.</summary>
    public required string AskCorners { get; init; }
}

/// <summary>
/// A drawing as it was dropped, before anything is written. Unit is null where it states none: lengths are then in its own units.
/// Box is min X, min Y, max X, max Y of all curves. Fit is the verdict of make and check on a fresh job. Job says where the job would be written.
/// </summary>
internal sealed record DrawnAnswer
{
    public required string Name { get; init; }

    public required string Job { get; init; }

    public required string? Unit { get; init; }

    public required double[] Box { get; init; }

    public required LoopLook[] Loops { get; init; }

    public required GapLook[] Gaps { get; init; }

    public required RoleLook[] Roles { get; init; }

    public required PlacedFinding[] Findings { get; init; }

    public required bool Fit { get; init; }

    public required AnswersOffered Answers { get; init; }
}

/// <summary>A job was written; Open are the keys that are still to be answered in it.</summary>
internal sealed record WrittenAnswer(string Message, string Job, string[] Open);

/// <summary>A job of the file as a form: its text, its keys with what they may be, and a hash of all files that an answer depends on.</summary>
internal sealed record FormAnswer(
    string Job,
    string File,
    string Text,
    string Hash,
    FormKey[] Keys,
    FindingLine[] Findings
);

/// <summary>A key as a field. Stated and Default are as the file would have them; null for a key that is left out.</summary>
internal sealed record FormKey
{
    public required string Path { get; init; }

    public required string Kind { get; init; }

    public required string Unit { get; init; }

    public required double? Least { get; init; }

    public required double? Greatest { get; init; }

    public required string Usual { get; init; }

    public required string[] Choices { get; init; }

    public required string Default { get; init; }

    public required string Note { get; init; }

    public required string? Stated { get; init; }
}

/// <summary>A field that was changed: Value as it was typed, null to leave the key out.</summary>
internal sealed record FormEdit(string Path, string? Value);

/// <summary>Asks what the job comes to with these fields, or to write them.</summary>
internal sealed record FormQuestion(string Hash, FormEdit[] Edits);

/// <summary>The disk has another job than the form: Theirs are the keys that differ there, as before and after.</summary>
internal sealed record ConflictAnswer(string Message, string[] Theirs);

/// <summary>
/// What a job comes to: its text, findings with their places in the plate's frame, the plan, what was chosen for open keys. Factors
/// and plan are null where it did not come so far.
/// </summary>
internal sealed record CheckedAnswer
{
    public required string Text { get; init; }

    public required bool Ok { get; init; }

    public required PlacedFinding[] Findings { get; init; }

    public required HoldingFacts? Factors { get; init; }

    public required HouseLimits? Limits { get; init; }

    public required SolveFacts? Solve { get; init; }

    public required double[]? Box { get; init; }

    public required ShapeAnswer[] Shapes { get; init; }

    public required Dictionary<string, string> Curves { get; init; }
}

/// <summary>Questions and answers of drawings and job files as JSON, without reflection; as strict as those of the layout.</summary>
[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
    RespectNullableAnnotations = true,
    RespectRequiredConstructorParameters = true,
    AllowDuplicateProperties = false
)]
[JsonSerializable(typeof(DrawnAnswer))]
[JsonSerializable(typeof(WrittenAnswer))]
[JsonSerializable(typeof(FormAnswer))]
[JsonSerializable(typeof(FormQuestion))]
[JsonSerializable(typeof(ConflictAnswer))]
[JsonSerializable(typeof(CheckedAnswer))]
internal sealed partial class JobsJson : JsonSerializerContext;

using System.Text.Json.Serialization;
using FixtureGen.Output.Reports;

namespace FixtureGen.App.Page.Overview;

/// <summary>What the page asks first: the folder, the job that it opens with (empty for the library), the version, and whether there is a shop.</summary>
internal sealed record HomeAnswer(string Folder, string Start, string Version, string[] Plates, bool Shop);

/// <summary>One block that was cut.</summary>
internal sealed record BlockLine(
    int Revision,
    int Number,
    string State,
    string CutAt,
    int Cycles,
    int CordCycles,
    int LeakPaPerMin
);

/// <summary>One thing that happened to a job, newest first on the page.</summary>
internal sealed record EventLine(
    int Number,
    string At,
    string Who,
    string What,
    int Revision,
    int Block,
    int Amount,
    string Why
);

/// <summary>A notice that somebody must answer or has answered by cutting anew.</summary>
internal sealed record NoticeLine(int Number, int Revision, string What, string Answer);

/// <summary>
/// One job of the library. State is never-made, made, stale, refused, cut, worn or scrapped; Why says what makes it stale or refused.
/// Factors are null where it has no report; minutes are of all its programs.
/// </summary>
internal sealed record FixtureRow
{
    /// <summary>The job's name in the list: its path below the folder.</summary>
    public required string Job { get; init; }

    /// <summary>The file's name without its end.</summary>
    public required string Name { get; init; }

    /// <summary>The fixture's id; empty where none is known.</summary>
    public required string Id { get; init; }

    /// <summary>0 where it has none.</summary>
    public required int Revision { get; init; }

    /// <summary>Of the block's trim program, from 1; 0 where it has none.</summary>
    public required int Trim { get; init; }

    /// <summary>Of the trim program; top and underside follow. 0 where it has none.</summary>
    public required int Program { get; init; }

    /// <summary>See above.</summary>
    public required string State { get; init; }

    /// <summary>Empty where there is nothing to say.</summary>
    public required string Why { get; init; }

    /// <summary>Worst case, vacuum alone.</summary>
    public required double? Vacuum { get; init; }

    /// <summary>Worst case with the seal lost while the machine stops, on its stops.</summary>
    public required double? Stopping { get; init; }

    /// <summary>Minutes of all programs; 0 where none were made.</summary>
    public required double Minutes { get; init; }

    /// <summary>Name and revision of the plate; empty where none is known.</summary>
    public required string Plate { get; init; }

    /// <summary>When it was made, UTC to the second; empty where it never was.</summary>
    public required string MadeAt { get; init; }

    /// <summary>True where the output has a preview.</summary>
    public required bool Picture { get; init; }

    /// <summary>Of every revision, in order.</summary>
    public required BlockLine[] Blocks { get; init; }

    /// <summary>Those that stand.</summary>
    public required NoticeLine[] Notices { get; init; }

    /// <summary>The newest first, at most twenty.</summary>
    public required EventLine[] Events { get; init; }
}

/// <summary>Every job; Findings are of the registers.</summary>
internal sealed record LibraryAnswer(FixtureRow[] Fixtures, FindingLine[] Findings, RunAnswer Run);

/// <summary>What a regeneration did to one job, or would do.</summary>
internal sealed record ChangeLine
{
    /// <summary>The file's name without its end.</summary>
    public required string Name { get; init; }

    /// <summary>made, would be made, unchanged, refused or stopped.</summary>
    public required string Result { get; init; }

    /// <summary>What changed that it was looked at.</summary>
    public required string Why { get; init; }

    /// <summary>Factors and minutes, before and after where both are known.</summary>
    public required string Vacuum { get; init; }

    /// <summary>The same with the seal lost.</summary>
    public required string Stopping { get; init; }

    /// <summary>The same for the minutes of all programs.</summary>
    public required string Minutes { get; init; }

    /// <summary>Features that lie elsewhere.</summary>
    public required string[] Moved { get; init; }

    /// <summary>Programs that the machine must be given again.</summary>
    public required string[] Reload { get; init; }

    /// <summary>Why blocks on the shelf no longer fit.</summary>
    public required string[] Misfits { get; init; }

    /// <summary>Its errors and warnings.</summary>
    public required FindingLine[] Findings { get; init; }
}

/// <summary>A block to cut anew and what it costs.</summary>
internal sealed record RecutLine(string Name, int Revision, double Minutes, double CordMm, int Magnets, string Blank);

/// <summary>The regeneration that runs or ran last on this page. State is none, running, stopping or ended.</summary>
internal sealed record RunAnswer
{
    /// <summary>See above.</summary>
    public required string State { get; init; }

    /// <summary>Nothing is written.</summary>
    public required bool DryRun { get; init; }

    /// <summary>What stands in for the shop's own: a plate's name, or kind and name of a file that is tried; empty for nothing.</summary>
    public required string With { get; init; }

    /// <summary>Jobs done.</summary>
    public required int Done { get; init; }

    /// <summary>Jobs in all.</summary>
    public required int Total { get; init; }

    /// <summary>The job that was done last.</summary>
    public required string Last { get; init; }

    /// <summary>Seconds left, as far as they can be told.</summary>
    public required double? SecondsLeft { get; init; }

    /// <summary>Empty until it has ended.</summary>
    public required ChangeLine[] Changes { get; init; }

    /// <summary>Empty until it has ended.</summary>
    public required RecutLine[] Recut { get; init; }

    /// <summary>Of the run itself.</summary>
    public required FindingLine[] Findings { get; init; }
}

/// <summary>An output file of a job; Kind is program, paper, picture, drawing, table or report.</summary>
internal sealed record OutputLine(string Name, string Kind, long Bytes, string At);

/// <summary>A job's output files. Stale says why they are not what would be made now; empty where they are.</summary>
internal sealed record OutputsAnswer(string Folder, OutputLine[] Files, string Stale);

/// <summary>Asks for a regeneration. Plate is the name of a plate of the shop that stands in, empty for none; then it must be a dry run.</summary>
internal sealed record RegenerateQuestion(bool DryRun, bool Force, string Plate);

/// <summary>Asks to stop the regeneration that runs.</summary>
internal sealed record CancelQuestion;

/// <summary>Something happened to a job's block: What is a word of <see cref="Library.Noting.Kinds"/> or undo. Null is the usual one.</summary>
internal sealed record NoteQuestion
{
    /// <summary>See above.</summary>
    public required string What { get; init; }

    /// <summary>Null for the usual one.</summary>
    public int? Revision { get; init; }

    /// <summary>Null for the usual one.</summary>
    public int? Block { get; init; }

    /// <summary>Parts, or Pa a minute.</summary>
    public int? Amount { get; init; }

    /// <summary>Kept for good.</summary>
    public string? Why { get; init; }

    /// <summary>Who notes it; null for the user's name.</summary>
    public string? By { get; init; }
}

/// <summary>Questions and answers of the library as JSON, without reflection; as strict as those of the layout.</summary>
[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
    RespectNullableAnnotations = true,
    RespectRequiredConstructorParameters = true,
    AllowDuplicateProperties = false
)]
[JsonSerializable(typeof(HomeAnswer))]
[JsonSerializable(typeof(LibraryAnswer))]
[JsonSerializable(typeof(RunAnswer))]
[JsonSerializable(typeof(OutputsAnswer))]
[JsonSerializable(typeof(RegenerateQuestion))]
[JsonSerializable(typeof(CancelQuestion))]
[JsonSerializable(typeof(NoteQuestion))]
internal sealed partial class OverviewJson : JsonSerializerContext;

using System.Text.Json.Serialization;
using FixtureGen.App.Page.Jobs;
using FixtureGen.Output.Reports;

namespace FixtureGen.App.Page.ShopDesk;

/// <summary>A part of a picture: Kind is how it is drawn, Path SVG data with Y up, mm.</summary>
internal sealed record PicturePart(string Kind, string Path, string Name);

/// <summary>
/// A picture drawn from the values of a file, or of the row of it that Of names (empty for the file). Box is min X, min Y, max X,
/// max Y. Lines is what is shown in words where there is nothing to draw.
/// </summary>
internal sealed record ShopPicture(string Of, string Caption, double[] Box, PicturePart[] Parts, string[] Lines);

/// <summary>A shop file in the list. Errors and Warnings are of its reader; NamedBy counts the jobs that name it, OpenTo those that may choose it.</summary>
internal sealed record ShopEntry(
    string Name,
    string Description,
    int Errors,
    int Warnings,
    int NamedBy,
    int OpenTo,
    ShopPicture? Picture
);

/// <summary>The shop files of a kind.</summary>
internal sealed record ShopKindEntries(string Kind, ShopEntry[] Entries);

/// <summary>The whole shop. Folder is where it lies.</summary>
internal sealed record ShopAnswer(string Folder, ShopKindEntries[] Kinds);

/// <summary>A job that a file decides: its name in the list of jobs, the job file's name without its end, and whether it names the file or may choose it.</summary>
internal sealed record UsingJob(string Job, string Name, bool Named);

/// <summary>A key of a shop file as a field; Line is that of its value, null where it is left out.</summary>
internal sealed record ShopKey(FormKey Field, int? Line);

/// <summary>
/// A shop file as a form: its text as it stands on the page, its keys, what its reader finds. Hash is of the file on disk as it was
/// read, empty where the text is the page's own. Rows are its lists' rows that can be copied or taken out.
/// </summary>
internal sealed record ShopFileAnswer
{
    /// <summary>The folder below templates/.</summary>
    public required string Kind { get; init; }

    /// <summary>The file's name without its end.</summary>
    public required string Name { get; init; }

    /// <summary>As findings name it.</summary>
    public required string File { get; init; }

    /// <summary>See above.</summary>
    public required string Text { get; init; }

    /// <summary>See above.</summary>
    public required string Hash { get; init; }

    /// <summary>The unit of its bare lengths.</summary>
    public required string Unit { get; init; }

    /// <summary>Every key that it may have, in its reader's order.</summary>
    public required ShopKey[] Keys { get; init; }

    /// <summary>See above.</summary>
    public required string[] Rows { get; init; }

    /// <summary>What its reader says.</summary>
    public required FindingLine[] Findings { get; init; }

    /// <summary>The file's first, then those of its rows.</summary>
    public required ShopPicture[] Pictures { get; init; }

    /// <summary>Empty where the text is the page's own.</summary>
    public required UsingJob[] UsedBy { get; init; }
}

/// <summary>One change of the text: Act is set, leave-out, copy or take-out; Path a key or a row; Value as it was typed.</summary>
internal sealed record ShopEdit(string Act, string Path, string? Value);

/// <summary>Asks what the text comes to, with one change more.</summary>
internal sealed record ShopEditQuestion(string Kind, string Name, string Text, ShopEdit? Edit);

/// <summary>Asks to write the text. Hash is of the file as it was read; New says that the name is a new one.</summary>
internal sealed record ShopSaveQuestion(string Kind, string Name, string Text, string Hash, bool New);

/// <summary>Asks what the library would come to with the text in the file's place; nothing is written.</summary>
internal sealed record ShopTrialQuestion(string Kind, string Name, string Text);

/// <summary>Asks to lay a shop to begin with into the folder.</summary>
internal sealed record BeginQuestion;

/// <summary>The file was written; Hash is of it as it is now.</summary>
internal sealed record ShopSavedAnswer(string Message, string Hash);

/// <summary>Questions and answers about the shop as JSON, without reflection; as strict as those of the layout.</summary>
[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
    RespectNullableAnnotations = true,
    RespectRequiredConstructorParameters = true,
    AllowDuplicateProperties = false
)]
[JsonSerializable(typeof(ShopAnswer))]
[JsonSerializable(typeof(ShopFileAnswer))]
[JsonSerializable(typeof(ShopEditQuestion))]
[JsonSerializable(typeof(ShopSaveQuestion))]
[JsonSerializable(typeof(ShopTrialQuestion))]
[JsonSerializable(typeof(BeginQuestion))]
[JsonSerializable(typeof(ShopSavedAnswer))]
internal sealed partial class ShopJson : JsonSerializerContext;

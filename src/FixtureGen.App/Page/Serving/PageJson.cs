using System.Text.Json.Serialization;
using FixtureGen.Output.Reports;

namespace FixtureGen.App.Page.Serving;

/// <summary>What the page shows to the person. Fault is the id in the log of a fault of our own.</summary>
internal sealed record MessageAnswer(string Message)
{
    /// <summary>What goes with it; left out where there is nothing.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public FindingLine[]? Findings { get; init; }

    /// <summary>Left out where it is no fault of ours.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? Fault { get; init; }
}

/// <summary>What every part of the page answers with, as JSON without reflection.</summary>
[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase)]
[JsonSerializable(typeof(MessageAnswer))]
internal sealed partial class PageJson : JsonSerializerContext;

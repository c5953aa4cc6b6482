using System.Globalization;
using FixtureGen.Shop.Reading;

namespace FixtureGen.Shop.Jobs;

/// <summary>What only the shop knows of a shell, as it would stand in the job file; empty where it is not answered.</summary>
/// <param name="Shell">The material, a file of materials/.</param>
/// <param name="Thickness">In the job's unit, or with its own: "1.5 mm".</param>
/// <param name="Slack">Greatest looseness, the same.</param>
/// <param name="Locator">auto, pins, form or hand.</param>
/// <param name="Unit">mm or in, where the drawing states none.</param>
public sealed record JobAnswers(string Shell, string Thickness, string Slack, string Locator, string Unit)
{
    /// <summary>Nothing is answered.</summary>
    public static JobAnswers None { get; } = new("", "", "", "", "");

    /// <summary>What becomes of cutouts too small for the cutters: drill, second-cutter, spot or leave.</summary>
    public string SmallHoles { get; init; } = "";

    /// <summary>What may stay in an inner corner, a length as the others.</summary>
    public string CornerLeft { get; init; } = "";

    /// <summary>What a job's text answers, lengths with their unit; what it leaves open or cannot be read is empty.</summary>
    public static JobAnswers ReadFrom(string text, string file)
    {
        if (TomlText.Parse(text, file).Value is not { } job)
        {
            return None;
        }
        string unit = Text(job, "units");
        return new JobAnswers(
            Text(job, "shop", "shell"),
            Length(job, unit, "shell", "thickness"),
            Length(job, unit, "shell", "slack_max"),
            Text(job, "locator", "by"),
            ""
        )
        {
            SmallHoles = Text(job, "small_holes"),
            CornerLeft = Length(job, unit, "rules", "corner_left"),
        };
    }

    /// <summary>The id of a job's fixture; empty where its text states none.</summary>
    public static string FixtureOf(string text, string file) =>
        TomlText.Parse(text, file).Value is { } job ? Text(job, "fixture") : "";

    private static TomlValue? Find(TomlTable job, string[] path)
    {
        TomlValue? at = job;
        foreach (string key in path)
        {
            at = (at as TomlTable)?.Find(key)?.Value;
        }
        return at;
    }

    private static string Text(TomlTable job, params string[] path) =>
        Find(job, path) is TomlString { Text: var text } && text != Unanswered.Mark ? text : "";

    private static string Length(TomlTable job, string unit, params string[] path) =>
        Find(job, path) is TomlNumber { Value: var value }
            ? string.Create(CultureInfo.InvariantCulture, $"{value:0.####} {(unit == "in" ? "in" : "mm")}")
            : Text(job, path);
}

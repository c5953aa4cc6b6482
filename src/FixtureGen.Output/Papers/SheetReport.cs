using System.Text.Json;
using FixtureGen.Output.Reports;
using FixtureGen.Output.Scenes;

namespace FixtureGen.Output.Papers;

/// <summary>The report's figures digit for digit, so that a sheet on the wall can be matched with the files on the disk.</summary>
internal static class SheetReport
{
    private const double Size = 2.45;
    private const double Pitch = Size * 1.38;

    public static void Draw(Paper paper, PaperFacts facts)
    {
        TypeStyle type = TypeStyle.Plain(Size);
        IReadOnlyList<string>[] lines = [.. Lines(facts).Select(l => Typefaces.Wrap(l, type, paper.Wide))];
        paper.Heading($"Figures as in {facts.Job.Name}.report.json", 30);
        paper.Y += 0.5;
        foreach (IReadOnlyList<string> rows in lines)
        {
            paper.Keep(rows.Count * Pitch);
            foreach (string row in rows)
            {
                paper.Y += Pitch;
                paper.Page.Text(row, paper.PointAt(Paper.Left, paper.Y), type);
            }
        }
    }

    /// <summary>One line an object or list: its path and its plain values, in the report's order.</summary>
    internal static IEnumerable<string> Lines(PaperFacts facts)
    {
        Report report = ReportBuilder.Refused(facts.Job.Name, [], "") with
        {
            Part = ReportBuilder.Part(facts.Drawn),
            Placement = ReportBuilder.Placement(facts.Design.Placement),
            Features = ReportBuilder.Features(facts.Design),
            Holding = ReportBuilder.Holding(facts.Holding),
            Programs = ReportBuilder.Programs(facts.Verdict, facts.Programs),
            Verify = ReportBuilder.Verify(facts.Verdict),
            Trim = ReportBuilder.Trim(facts.Job, facts.Direction),
            BlockHolding = ReportBuilder.BlockHolding(facts.BlockHolds),
        };
        using JsonDocument json = JsonDocument.Parse(ReportJson.Text(report));
        string[] parts = ["part", "placement", "features", "holding", "programs", "verify", "blockHolding", "trim"];
        return [.. parts.SelectMany(p => Walk(p, json.RootElement.GetProperty(p)))];
    }

    private static IEnumerable<string> Walk(string path, JsonElement at)
    {
        if (at.ValueKind == JsonValueKind.Array)
        {
            string each = string.Join("; ", at.EnumerateArray().Select((e, i) => $"{Figures.Whole(i + 1)}: {Own(e)}"));
            return each.Length > 0 ? [$"{path} {each}"] : [];
        }
        string own = Own(at);
        IEnumerable<string> below = at.EnumerateObject()
            .Where(p => !IsPlain(p.Value))
            .SelectMany(p => Walk($"{path} {p.Name}", p.Value));
        return own.Length > 0 ? below.Prepend($"{path}: {own}") : below;
    }

    /// <summary>The plain values of one object; objects in lists have no others.</summary>
    private static string Own(JsonElement at) =>
        string.Join(", ", at.EnumerateObject().Where(p => IsPlain(p.Value)).Select(p => $"{p.Name} {Value(p.Value)}"));

    private static bool IsPlain(JsonElement e) =>
        e.ValueKind switch
        {
            JsonValueKind.Object => false,
            JsonValueKind.Array => e.EnumerateArray().All(x => x.ValueKind is not JsonValueKind.Object),
            _ => true,
        };

    private static string Value(JsonElement e) =>
        e.ValueKind == JsonValueKind.Array ? string.Join(" ", e.EnumerateArray().Select(Value))
        : e.ValueKind == JsonValueKind.String ? e.GetString()!
        : e.GetRawText();
}

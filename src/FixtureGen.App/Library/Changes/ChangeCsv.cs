using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using FixtureGen.Output.Papers;

namespace FixtureGen.App.Library.Changes;

/// <summary>The change report as a table for a spreadsheet: <c>regenerate.csv</c>.</summary>
internal static class ChangeCsv
{
    private static readonly string[] Heads =
    [
        "job",
        "result",
        "why",
        "revision",
        "trim revision",
        "number",
        "minutes before",
        "minutes",
        "block minutes",
        "cord mm",
        "magnets",
        "blank",
        "moved",
        "reload",
        "scrap",
        "errors",
    ];

    /// <summary>CSV by RFC 4180 with a header line; numbers with a point; a cell is never a formula.</summary>
    public static string Text(ImmutableArray<JobChange> changes)
    {
        StringBuilder text = new();
        text.AppendJoin(',', Heads).Append("\r\n");
        foreach (JobChange c in changes)
        {
            text.AppendJoin(',', Cells(c).Select(CutList.Field)).Append("\r\n");
        }
        return text.ToString();
    }

    private static IEnumerable<string> Cells(JobChange c) =>
        [
            c.Job,
            ChangeReport.Word(c.Result),
            c.Why,
            N(c.Revision),
            N(c.Trim),
            N(c.Program),
            D(c.Before?.Minutes),
            D(c.After?.Minutes),
            D(c.After?.BlockMinutes),
            D(c.After?.CordMm),
            c.After is { } a ? N(a.Magnets) : "",
            c.After?.Blank ?? "",
            string.Join("; ", c.Moved),
            string.Join("; ", c.Reload),
            string.Join(
                "; ",
                c.Misfits.Select(m => string.Create(CultureInfo.InvariantCulture, $"revision {m.Revision}: {m.What}"))
            ),
            string.Join("; ", c.Findings.Where(f => f.Severity == "error").Select(f => f.Code).Distinct()),
        ];

    private static string N(int value) => value.ToString(CultureInfo.InvariantCulture);

    private static string D(double? value) => value?.ToString("0.0", CultureInfo.InvariantCulture) ?? "";
}

using System.Collections.Immutable;
using System.Globalization;
using System.Net;
using FixtureGen.App.Records;
using FixtureGen.Output.Reports;

namespace FixtureGen.App.Library.Changes;

/// <summary>The change report as an HTML page with its pictures before and after in a folder beside it: no network. Written row by row, so that memory does not grow with the library.</summary>
internal static class ChangePage
{
    private const string Style = """
        :root { color-scheme: light dark; --line: #8886; --soft: #8881; }
        body { font: 15px/1.45 system-ui, sans-serif; margin: 2rem auto; max-width: 75rem; padding: 0 1rem; }
        h1 { font-size: 1.5rem; } h2 { font-size: 1.15rem; margin-top: 2.5rem; border-top: 1px solid var(--line); padding-top: 1rem; }
        table { border-collapse: collapse; width: 100%; } th, td { text-align: left; padding: .35rem .6rem; border-bottom: 1px solid var(--line); vertical-align: top; }
        th { background: var(--soft); } td.n { white-space: nowrap; font-variant-numeric: tabular-nums; }
        .refused, .scrap { font-weight: 700; } .scrap { border: 2px solid; padding: .6rem .8rem; margin: .8rem 0; }
        .pair { display: grid; grid-template-columns: 1fr 1fr; gap: 1rem; } .pair img { width: 100%; background: #fff; border: 1px solid var(--line); }
        .wide { overflow-x: auto; } @media (max-width: 48rem) { .pair { grid-template-columns: 1fr; } }
        figure { margin: 0; } figcaption { padding: .2rem 0; }
        """;

    /// <summary>Beside the page.</summary>
    public const string PictureFolder = "regenerate.pictures";

    /// <summary>The whole page.</summary>
    /// <param name="page">Not closed here.</param>
    /// <param name="changes">In the order of the rows.</param>
    /// <param name="notices">Those that stand, whichever run gave them.</param>
    /// <param name="title">Plain text; it is escaped here, as is all else.</param>
    /// <exception cref="IOException">The page cannot be written.</exception>
    public static void Write(
        TextWriter page,
        ImmutableArray<JobChange> changes,
        ImmutableArray<Notice> notices,
        string title
    )
    {
        page.Write(
            $"<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"><meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"><title>{E(title)}</title>\n<style>{Style}</style></head><body>\n<h1>{E(title)}</h1>\n"
        );
        page.Write(
            $"<p>{Count(changes, JobResult.Made)} made, {Count(changes, JobResult.Unchanged)} unchanged, {Count(changes, JobResult.Refused)} refused, {Count(changes, JobResult.Stopped)} not reached.</p>\n"
        );
        foreach (Notice n in notices)
        {
            page.Write(
                $"<p class=\"scrap\">{E(NoticeText.Heading(n))}: {E(n.What)}. {E(NoticeText.WhatToDo(n))}</p>\n"
            );
        }
        Recut(page, RecutRow.List(notices, changes));
        Table(page, changes);
        foreach (JobChange c in changes.Where(c => c.Result != JobResult.Unchanged))
        {
            Section(page, c);
        }
        page.Write("</body></html>\n");
    }

    private static void Recut(TextWriter page, ImmutableArray<RecutRow> rows)
    {
        if (rows.Length == 0)
        {
            return;
        }
        page.Write(
            "<h2>Blocks to cut anew</h2>\n<div class=\"wide\"><table><thead><tr><th>Job</th><th>Block now</th><th>Cut revision</th><th>Number</th><th>Machine minutes</th><th>Cord, mm</th><th>Magnets</th><th>Blank</th><th>Load</th></tr></thead><tbody>\n"
        );
        foreach (RecutRow r in rows)
        {
            page.Write(
                $"<tr><td>{E(r.Job)}</td><td class=\"n\">{N(r.Shelf)}</td><td class=\"n\">{N(r.Revision)}</td><td class=\"n\">{N(r.Program)}</td><td class=\"n\">{D(r.Minutes)}</td><td class=\"n\">{D(r.CordMm)}</td><td class=\"n\">{N(r.Magnets)}</td><td>{E(r.Blank)}</td><td>{E(r.Load)}</td></tr>\n"
            );
        }
        page.Write(
            $"<tr><th>Together</th><td></td><td></td><td></td><td class=\"n\">{D(rows.Sum(r => r.Minutes))}</td><td class=\"n\">{D(rows.Sum(r => r.CordMm))}</td><td class=\"n\">{N(rows.Sum(r => r.Magnets))}</td><td>{N(rows.Length)} blanks</td><td></td></tr>\n</tbody></table></div>\n<h2>All jobs</h2>\n"
        );
    }

    private static void Table(TextWriter page, ImmutableArray<JobChange> changes)
    {
        page.Write(
            "<div class=\"wide\"><table><thead><tr><th>Job</th><th>Result</th><th>Why</th><th>Rev.</th><th>Number</th><th>Minutes</th><th>Vacuum</th><th>Magnets, stopping</th><th>Both</th><th>Reload</th></tr></thead><tbody>\n"
        );
        foreach (JobChange c in changes)
        {
            (JobFigures? b, JobFigures? a) = (c.Before, c.After);
            string result = ChangeReport.Word(c.Result);
            page.Write($"<tr><td>{E(c.Job)}</td><td class=\"{result}\">{result}</td><td>{E(c.Why)}</td>");
            page.Write($"<td class=\"n\">{N(c.Revision)}</td><td class=\"n\">{N(c.Program)}</td>");
            page.Write($"<td class=\"n\">{Pair(b?.Minutes, a?.Minutes, "0.0")}</td>");
            page.Write($"<td class=\"n\">{Pair(b?.VacuumOnly, a?.VacuumOnly, "0.00")}</td>");
            page.Write($"<td class=\"n\">{Pair(b?.MagnetsStopping, a?.MagnetsStopping, "0.00")}</td>");
            page.Write($"<td class=\"n\">{Pair(b?.Both, a?.Both, "0.00")}</td>");
            page.Write($"<td>{E(string.Join(", ", c.Reload))}</td></tr>\n");
        }
        page.Write("</tbody></table></div>\n");
    }

    private static void Section(TextWriter page, JobChange c)
    {
        page.Write($"<h2>{E(c.Job)}: {ChangeReport.Word(c.Result)}</h2>\n");
        if (c.Result == JobResult.Refused)
        {
            page.Write("<p>The files that were there are kept.</p>\n");
        }
        if (c.Moved.Length > 0)
        {
            page.Write($"<p>What moved: {E(string.Join("; ", c.Moved))}.</p>\n");
        }
        FindingLine[] told = [.. c.Findings.Where(f => f.Severity != "note")];
        if (told.Length > 0)
        {
            page.Write("<ul>\n");
            foreach (IGrouping<(string, string), FindingLine> alike in told.GroupBy(f => (f.Code, f.Remedy)))
            {
                FindingLine f = alike.First();
                string more = alike.Skip(1).Any() ? $" ({N(alike.Count())} of this kind; the first is shown)" : "";
                page.Write(
                    $"<li><strong>{E(f.Severity)}</strong> {E(f.Code)} at {E(f.Where)}: {E(f.Message.TrimEnd('.'))}{E(more)}. <em>{E(f.Remedy)}</em></li>\n"
                );
            }
            page.Write("</ul>\n");
        }
        if (c.PictureAfter is not null)
        {
            page.Write("<div class=\"pair\">");
            Picture(page, "before", c.PictureBefore, c.Job);
            Picture(page, "after", c.PictureAfter, c.Job);
            page.Write("</div>\n");
        }
    }

    private static void Picture(TextWriter page, string caption, string? path, string job)
    {
        page.Write($"<figure><figcaption>{E(caption)}</figcaption>");
        page.Write(
            path is null
                ? "<p>new: nothing was there before</p>"
                : $"<img loading=\"lazy\" alt=\"{E(job)} {caption}\" src=\"{PictureFolder}/{Uri.EscapeDataString(Path.GetFileName(path))}\">"
        );
        page.Write("</figure>");
    }

    private static string Count(ImmutableArray<JobChange> changes, JobResult result) =>
        N(changes.Count(c => c.Result == result));

    private static string D(double value) => value.ToString("0.0", CultureInfo.InvariantCulture);

    private static string N(int value) => value.ToString(CultureInfo.InvariantCulture);

    private static string Pair(double? before, double? after, string format) =>
        E(ChangeReport.Pair(before, after, format));

    private static string E(string text) => WebUtility.HtmlEncode(text);
}

using System.Collections.Immutable;
using System.Globalization;
using FixtureGen.App.Records;
using FixtureGen.App.Terminal;

namespace FixtureGen.App.Library.Changes;

/// <summary>The change report as a table for the terminal.</summary>
internal static class ChangeTable
{
    /// <summary>A row for each job, and under it what moved; below all, the notices that stand.</summary>
    public static void Print(Say say, ImmutableArray<JobChange> changes, ImmutableArray<Notice> notices, bool dryRun)
    {
        int width = Math.Max(8, changes.Select(c => c.Job.Length).DefaultIfEmpty(0).Max());
        int told = Math.Max(
            9,
            changes.Select(c => ChangeReport.ResultWord(c.Result, dryRun).Length).DefaultIfEmpty(0).Max()
        );
        say.Line(
            $"{"job".PadRight(width)}  {"result".PadRight(told)}  rev  number  {"minutes", -14}  {"vacuum", -14}  {"magnets stop.", -14}  {"both", -14}  why"
        );
        foreach (JobChange c in changes)
        {
            (JobFigures? b, JobFigures? a) = (c.Before, c.After);
            say.Line(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{c.Job.PadRight(width)}  {ChangeReport.ResultWord(c.Result, dryRun).PadRight(told)}  {c.Revision, 3}  {c.Program, 6}  {ChangeReport.Pair(b?.Minutes, a?.Minutes, "0.0"), -14}  {ChangeReport.Pair(b?.VacuumOnly, a?.VacuumOnly, "0.00"), -14}  {ChangeReport.Pair(b?.MagnetsStopping, a?.MagnetsStopping, "0.00"), -14}  {ChangeReport.Pair(b?.Both, a?.Both, "0.00"), -14}  {c.Why}"
                )
            );
            foreach (string moved in c.Moved)
            {
                say.Line($"{"".PadRight(width)}    {moved}");
            }
        }
        foreach (Notice n in notices)
        {
            say.Line($"{NoticeText.Heading(n)}: {n.What}. {NoticeText.WhatToDo(n)}");
        }
    }
}

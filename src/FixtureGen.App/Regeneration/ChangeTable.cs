using System.Collections.Immutable;
using System.Globalization;
using FixtureGen.Output;

namespace FixtureGen.App.Regeneration;

/// <summary>The change report as a table for the terminal.</summary>
public static class ChangeTable
{
    public static void Print(Say say, ImmutableArray<JobChange> changes)
    {
        int width = Math.Max(8, changes.Select(c => c.Job.Length).DefaultIfEmpty(0).Max());
        say.Line(
            $"{"job".PadRight(width)}  {"result", -9}  rev  number  {"minutes", -14}  {"vacuum", -14}  {"magnets stop.", -14}  {"both", -14}  why"
        );
        foreach (JobChange c in changes)
        {
            HoldingFacts? b = c.Before?.Holding;
            HoldingFacts? a = c.After?.Holding;
            say.Line(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{c.Job.PadRight(width)}  {ChangeReport.Word(c.Result), -9}  {c.Revision, 3}  {c.Program, 6}  {ChangeReport.Pair(ChangeReport.Minutes(c.Before), ChangeReport.Minutes(c.After), "0.0"), -14}  {ChangeReport.Pair(b?.VacuumOnly.Factor, a?.VacuumOnly.Factor, "0.00"), -14}  {ChangeReport.Pair(b?.MagnetsStopping.Factor, a?.MagnetsStopping.Factor, "0.00"), -14}  {ChangeReport.Pair(b?.Both.Factor, a?.Both.Factor, "0.00"), -14}  {c.Why}"
                )
            );
            foreach (string moved in c.Moved)
            {
                say.Line($"{"".PadRight(width)}    {moved}");
            }
            if (c.Scrap is not null)
            {
                say.Line($"{"".PadRight(width)}    SCRAP the block on the shelf: {c.Scrap}");
            }
        }
    }
}

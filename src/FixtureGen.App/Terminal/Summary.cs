using System.Collections.Immutable;
using System.Globalization;
using FixtureGen.Model;
using FixtureGen.Output;
using FixtureGen.Output.Reports;

namespace FixtureGen.App.Terminal;

/// <summary>The few lines a person reads after a run.</summary>
internal static class Summary
{
    /// <summary>The facts, then where which files were made.</summary>
    public static void Print(Say say, Report report, string folder, ImmutableArray<OutputFile> files)
    {
        Facts(say, report);
        say.Line("");
        say.Line($"Made in {folder}:");
        foreach (OutputFile file in files)
        {
            say.Line($"  {file.Name}");
        }
    }

    /// <summary>Placement, features, holding and programs, as far as the report has them.</summary>
    public static void Facts(Say say, Report report)
    {
        CultureInfo c = CultureInfo.InvariantCulture;
        if (report.Placement is { } p && report.Features is { } f)
        {
            say.Line(string.Create(c, $"{report.Job}: {f.Label}"));
            say.Line(
                string.Create(
                    c,
                    $"  on {p.Blank} ({p.BlankMaterial}) at X {p.XMm:0.###} Y {p.YMm:0.###} mm, turned {p.AngleDeg:0.###} deg"
                )
            );
            say.Line(
                string.Create(
                    c,
                    $"  sealed {f.SealedAreaMm2 / 100:0.0} cm2 in {f.Zones} zone(s), {f.GasketLoops.Count} cord(s) {f.CordLengthMm:0} mm, {f.Magnets.Count} magnets"
                )
            );
        }
        if (report.Holding is { } h)
        {
            bool byMagnets = h.HeldBy == "magnets";
            say.Line(
                byMagnets
                    ? "  hold by magnets alone in the worst case: stays put, nominal, stays on its stops"
                    : string.Create(
                        c,
                        $"  hold in the worst case at the alarm level of {h.VacuumKPa:0.0} kPa (pump {h.PumpKPa:0.0} kPa): stays put, nominal, stays on its stops"
                    )
            );
            if (!byMagnets)
            {
                Answer(say, "vacuum alone", h.VacuumOnly);
                Answer(say, "magnets alone, machine stopping", h.MagnetsStopping);
            }
            Answer(say, "magnets alone, full load", h.MagnetsOnly);
            if (!byMagnets)
            {
                Answer(say, "both", h.Both);
            }
        }
        foreach (ProgramFacts program in report.Programs ?? [])
        {
            say.Line(
                string.Create(
                    c,
                    $"  {program.Setup, -10} {program.Minutes, 6:0.0} min  {program.Lines, 6} lines  {program.Arcs, 5} arcs  {program.CutMm / 1000, 7:0.0} m cut  {program.RapidMm / 1000, 6:0.0} m rapid  tools: {string.Join(", ", program.Tools)}"
                )
            );
        }
        if (report.Verify is { } v)
        {
            say.Line(
                string.Create(
                    c,
                    $"  judged: {(v.Ok ? "ok" : "NOT ok")}; gouge depth {v.MaxGougeDepthMm:0.000} side {v.MaxGougeSideMm:0.000} mm, left-over {v.MaxLeftoverMm:0.000} mm, cells {v.CellMm:0.##} mm"
                )
            );
        }
    }

    private static void Answer(Say say, string what, AnswerFacts a) =>
        say.Line(
            string.Create(
                CultureInfo.InvariantCulture,
                $"    {what, -32} {FactorText.Two(a.Factor), 6} {FactorText.Two(a.Nominal), 6} {FactorText.Two(a.Stays), 6}  ({a.Mode} at X {a.XMm:0.0} Y {a.YMm:0.0}; {a.Governs})"
            )
        );
}

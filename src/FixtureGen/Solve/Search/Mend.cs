using System.Collections.Immutable;
using FixtureGen.Holding.Seal;
using FixtureGen.Model;

namespace FixtureGen.Solve.Search;

/// <summary>
/// What would mend a job that nothing in the shop holds: one thing at a time is changed and the job is solved again with it, so that
/// what is named was tried. A stated value left open comes first, then a larger disc, a thinner cord, more vacuum, magnets alone.
/// </summary>
internal sealed class Mend(Job job, Func<OpenKeys, Func<Job, Job>, Solution?> solve)
{
    /// <summary>Sizes that trades sell lie about so far apart.</summary>
    private static readonly ImmutableArray<double> Wider = [1.25, 1.6, 2];

    private static readonly ImmutableArray<double> Thinner = [0.75, 0.5];

    private static readonly ImmutableArray<(string Key, OpenKeys Open)> Openable =
    [
        ("trim.passes", OpenKeys.Passes),
        ("trim.feed", OpenKeys.Feed),
        ("trim.rpm", OpenKeys.Rpm),
        ("magnets.count", OpenKeys.Count),
        ("shop.magnet", OpenKeys.Magnet),
        ("shop.trim_tool", OpenKeys.TrimTool),
        ("shop.gasket", OpenKeys.Gasket),
        ("shop.blank", OpenKeys.Blank),
    ];

    /// <summary>A sentence that says what to do; what no single change mends says so.</summary>
    public string Find() =>
        LeftOpen()
        ?? Disc()
        ?? Cord()
        ?? Vacuum()
        ?? Magnets()
        ?? (
            job.HoldBy == HoldBy.Magnets
                ? "No single change that was tried mends it: no stated value left open and no larger disc. A thinner shell, more room for discs, or another way to hold it would."
                : "No single change that was tried mends it: no larger disc, thinner cord or deeper vacuum, nor magnets alone. A larger flange to seal on, a thinner shell, or another way to hold it would."
        );

    private string? LeftOpen()
    {
        foreach (
            (string key, OpenKeys open) in Openable.Where(k =>
                !job.Open.HasFlag(k.Open) && StatedCosts.Asked(job, k.Open)
            )
        )
        {
            if (solve(open, static j => j) is { } solution)
            {
                string value = SolveWords.Keys(solution.Draft.Job, solution.Magnets).First(k => k.Key == key).Value;
                return $"Leave {key} out of the job, or state {value}: then the limits are met.";
            }
        }
        return null;
    }

    private string? Magnets() => ByMagnets.Try(job, solve) is { Length: > 0 } instead ? instead : null;

    private string? Disc()
    {
        foreach (double scale in Wider)
        {
            MagnetSpec own = job.OtherMagnets.Append(job.Magnet).MaxBy(m => m.Diameter * m.Diameter * m.Thickness)!;
            double wider = (scale - 1) * own.Diameter;
            MagnetSpec larger = own with
            {
                Diameter = scale * own.Diameter,
                Thickness = scale * own.Thickness,
                JacketDiameter = own.JacketDiameter + wider,
                JacketHeight = own.JacketHeight + ((scale - 1) * own.Thickness),
            };
            Job Larger(Job j) => j with { Magnet = larger, OtherMagnets = [], Open = j.Open & ~OpenKeys.Magnet };
            if (solve(OpenKeys.None, Larger) is { } solution)
            {
                return FormattableString.Invariant(
                    $"Put a larger disc into templates/magnets/: {solution.Magnets} of {larger.Diameter:0.#} x {larger.Thickness:0.#} mm, {own.Grade}, meet the limits."
                );
            }
        }
        return null;
    }

    private string? Cord()
    {
        foreach (double scale in Thinner)
        {
            Gasket? own = job
                .OtherGaskets.Append(job.Gasket)
                .Where(g => g.Kind == CordKind.Sponge)
                .MinBy(g => g.Section);
            if (own is null || job.HoldBy == HoldBy.Magnets)
            {
                return null;
            }
            Gasket thin = own with
            {
                Section = scale * own.Section,
                GrooveWidth = scale * own.GrooveWidth,
                GrooveDepth = scale * own.GrooveDepth,
                InsideBendRadius = scale * own.InsideBendRadius,
            };
            Job Thin(Job j) => j with { Gasket = thin, OtherGaskets = [], Open = j.Open & ~OpenKeys.Gasket };
            if (solve(OpenKeys.None, Thin) is not null)
            {
                return FormattableString.Invariant(
                    $"Put a thinner cord into templates/gaskets/: a sponge cord of {thin.Section:0.##} mm as soft as {own.Name} meets the limits."
                );
            }
        }
        return null;
    }

    private string? Vacuum()
    {
        double settled = VacuumLevel.From(job.Vacuum).Settled;
        VacuumSupply deeper = job.Vacuum with { AlarmKPa = settled };
        return
            job.HoldBy == HoldBy.Vacuum
            && settled > job.Vacuum.AlarmKPa
            && solve(OpenKeys.None, j => j with { Vacuum = deeper }) is not null
            ? FormattableString.Invariant(
                $"Raise the vacuum alarm from {job.Vacuum.AlarmKPa:0.#} to {settled:0.#} kPa, which the pump reaches: then the limits are met."
            )
            : null;
    }
}

using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using FixtureGen.Geometry;
using FixtureGen.Holding.Block;
using FixtureGen.Model;
using FixtureGen.Programs;
using FixtureGen.Tests.Support;
using FixtureGen.Toolpaths;
using FixtureGen.Verify;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Tests.Verify.Designs;

/// <summary>Spoiled designs, programs made from them as from any, and the judge's word on those.</summary>
internal sealed class DesignRun(IReadOnlyList<DemoProgram> demos)
{
    /// <summary>Of the judge, for many runs.</summary>
    public static readonly Limits Coarse = Limits.House with { Cell = 0.2 };

    private readonly SortedDictionary<string, (int Tried, int Refused, int Unplanned)> _rows = new(
        StringComparer.Ordinal
    );

    /// <summary>Each passed over by the judge.</summary>
    public List<string> Misses { get; } = [];

    public int Judged => _rows.Values.Sum(r => r.Tried);

    public int Refused => _rows.Values.Sum(r => r.Refused);

    /// <summary>Spoils every kind in turn, demos at random, until so many designs were judged.</summary>
    public void Spoil(int count, int seed)
    {
        Random random = new(seed);
        string[] kinds = [.. DesignDamage.Kinds.Keys];
        for (int i = 0; Judged < count && i < 6 * count; i++)
        {
            Try(kinds[i % kinds.Length], demos[random.Next(demos.Count)], random);
        }
    }

    /// <summary>One kind on one demo; null where it has none of the kind or the planner refuses to plan it.</summary>
    public VerifyResult? Try(string kind, DemoProgram demo, Random random)
    {
        Job job = HeldJobs.Nominal(demo.Job);
        if (DesignDamage.Kinds[kind](demo.Design, job, new Draw(random)) is not { } design)
        {
            return null;
        }
        (int tried, int refused, int unplanned) = _rows.GetValueOrDefault(kind);
        if (Programs(design, job) is not { } texts)
        {
            _rows[kind] = (tried, refused, unplanned + 1);
            return null;
        }
        VerifyResult result = Verifier.Judge(new VerifyRequest(job, design, texts, Coarse) { Drawing = demo.Drawing });
        _rows[kind] = (tried + 1, refused + (result.Ok ? 0 : 1), unplanned);
        TestContext.Current.SendDiagnosticMessage($"{kind}: {demo.Job.Name}, refused {!result.Ok}");
        if (result.Ok)
        {
            Misses.Add($"{kind} in {demo.Job.Name}");
        }
        return result;
    }

    public string Table()
    {
        StringBuilder text = new();
        text.AppendLine("damage                                            judged refused missed not planned");
        foreach ((string kind, (int tried, int refused, int unplanned)) in _rows)
        {
            text.AppendLine(
                CultureInfo.InvariantCulture,
                $"{kind, -48} {tried, 7} {refused, 7} {tried - refused, 6} {unplanned, 6}"
            );
        }
        text.AppendLine(
            CultureInfo.InvariantCulture,
            $"{DesignDamage.Kinds.Count} kinds, refused {Refused} of {Judged}, {100.0 * Refused / Math.Max(1, Judged):0.00} %"
        );
        foreach (string miss in Misses)
        {
            text.Append("missed ").AppendLine(miss);
        }
        return text.ToString();
    }

    /// <summary>Programs of a design, spoiled or not; null where the planner refuses it.</summary>
    public static ImmutableArray<ProgramText>? Programs(FixtureDesign design, Job job)
    {
        try
        {
            Stage<ImmutableArray<ProgramPlan>> plans = OperationPlanner.Plan(
                design,
                job,
                new BlockHolding(design, job),
                Tolerances.House
            );
            if (!plans.Ok)
            {
                return null;
            }
            Stage<ProgramText>[] texts = [.. plans.Value.Select(p => ProgramWriter.Write(p, job.Control, job))];
            return texts.All(t => t.Ok) ? [.. texts.Select(t => t.Value!)] : null;
        }
        catch (Exception e)
            when (e is KernelException or InvalidOperationException or ArgumentException or IndexOutOfRangeException)
        {
            return null;
        }
    }
}

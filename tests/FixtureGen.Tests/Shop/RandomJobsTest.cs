using FixtureGen.Model;
using FixtureGen.Output;
using FixtureGen.Output.Reports;
using FixtureGen.Shop.Reading;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Shop;

/// <summary>
/// Jobs and shop files with seeded mistakes, through everything that check does: whatever is written, there is an answer or a
/// refusal that says what to do, never an exception and never a run without end. FIXTUREGEN_JOBS asks for a long run, which
/// FIXTUREGEN_SEED starts elsewhere.
/// </summary>
[Trait("Speed", "Slow")]
public sealed class RandomJobsTest(ITestOutputHelper output)
{
    private static readonly TimeSpan Endless = TimeSpan.FromMinutes(5);
    private static readonly string[] Outlines = ["label-clip", "tape-cradle", "meter-cradle", "hook-cradle"];

    [Fact]
    public void Whatever_a_shop_writes_is_answered_or_refused_with_a_remedy()
    {
        int count = LongRun.Setting("FIXTUREGEN_JOBS", 200);
        int first = LongRun.Setting("FIXTUREGEN_SEED", 1);
        Dictionary<string, byte[]> drawings = Outlines.ToDictionary(n => n, n => File.ReadAllBytes(Path(n, ".dxf")));
        SortedDictionary<string, int> outcomes = new(StringComparer.Ordinal);
        Lock gate = new();
        Parallel.For(
            first,
            first + count,
            seed =>
            {
                string told = One(Request(seed, drawings));
                lock (gate)
                {
                    string key = told.StartsWith("fault", StringComparison.Ordinal)
                        ? FormattableString.Invariant($"seed {seed} {told}")
                        : told;
                    outcomes[key] = outcomes.GetValueOrDefault(key) + 1;
                }
            }
        );
        foreach ((string told, int times) in outcomes.OrderByDescending(o => o.Value))
        {
            output.WriteLine(FormattableString.Invariant($"{times, 7}  {told}"));
        }
        Assert.DoesNotContain(outcomes.Keys, k => k.StartsWith("seed", StringComparison.Ordinal));
        Assert.True(outcomes.ContainsKey("answered"), "no job was good enough to be answered");
    }

    private static Request Request(int seed, Dictionary<string, byte[]> drawings)
    {
        Random random = new(seed);
        string name = Outlines[random.Next(Outlines.Length)];
        string job = File.ReadAllText(Path(name, ".toml"));
        int spoilt = random.Next(20);
        return new()
        {
            JobName = name,
            JobFile = $"outlines/{name}.toml",
            JobText = spoilt < 10 ? TomlMutator.Mutated(job, random) : job,
            DrawingFile = $"outlines/{name}.dxf",
            Drawing = drawings[name],
            Shop = spoilt < 8 ? DemoShop.Files : Spoilt(random.Next()),
            Registered = new Registered(1000, "F1000", 1, Overrules: false),
            Version = "test",
            Progress = static _ => { },
        };
    }

    /// <summary>"answered" or the first error's code; whatever must not be begins with "fault".</summary>
    private static string One(Request request)
    {
        Task<Outcome> run = Task.Run(() => Delivery.Check(request));
        try
        {
            return run.Wait(Endless) ? Told(run.Result) : "fault: no end";
        }
        catch (AggregateException e)
        {
            return $"fault: {e.InnerException}";
        }
    }

    private static string Told(Outcome outcome)
    {
        Finding? bare = outcome.Findings.FirstOrDefault(f =>
            new[] { f.Code, f.Where, f.Message, f.Remedy }.Any(string.IsNullOrWhiteSpace)
        );
        if (bare is not null)
        {
            return $"fault: something is missing in {bare}";
        }
        Finding? error = outcome.Findings.FirstOrDefault(f => f.Severity == Severity.Error);
        return outcome.Report.Ok
            ? (Finite(outcome.Report.Holding!) ? "answered" : $"fault: {outcome.Report.Holding}")
            : error?.Code ?? $"fault: refused without an error: {string.Join("; ", outcome.Findings)}";
    }

    private static bool Finite(HoldingFacts holding) =>
        new[] { holding.VacuumOnly, holding.MagnetsOnly, holding.MagnetsStopping, holding.Both }.All(a =>
            double.IsFinite(a.Factor) && a.Factor is >= 0 and <= 999
        );

    /// <summary>The demo shop with one kind of file spoilt; the same text each time that kind is asked for.</summary>
    private static ShopFiles Spoilt(int seed)
    {
        string[] kinds = ["plates", "tools", "materials", "magnets", "gaskets", "fasteners", "controls", "blanks"];
        string spoilt = kinds[(seed & int.MaxValue) % kinds.Length];
        return DemoShop.Files with
        {
            Find = (kind, name) =>
                DemoShop.Files.Find(kind, name) is { } found && kind == spoilt
                    ? (found.Path, TomlMutator.Mutated(found.Text, new Random(seed)))
                    : DemoShop.Files.Find(kind, name),
        };
    }

    private static string Path(string name, string extension) =>
        extension == ".toml"
            ? DemoShop.StatedJob(name)
            : System.IO.Path.Combine(DemoShop.Root, "outlines", name + extension);
}

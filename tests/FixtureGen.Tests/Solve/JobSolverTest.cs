using FixtureGen.Model;
using FixtureGen.Output;
using FixtureGen.Shop.Reading;
using FixtureGen.Solve.Search;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Solve;

/// <summary>What a solved job must keep, whatever the shop: laws, and every choice tried one by one.</summary>
[Trait("Speed", "Slow")]
public sealed class JobSolverTest(ITestOutputHelper output)
{
    private const double Gap = 0.01;

    private static readonly string[] Blanks = ["al6061-8-5", "hdpe-8-5"];
    private static readonly string[] Cords = ["sponge-1-8", "sponge-3-32"];
    private static readonly string[] Cutters = ["trim-1-8-up", "trim-1-8-down", "trim-1-4-up"];

    private static bool InSmallRack(Tool tool) =>
        tool.Flutes > 1 || tool.Kind != ToolKind.EndMill || Cutters.Contains(tool.Name);

    /// <summary>Every blank, cord and cutter of a small shop stated in turn: none takes less than what is chosen where they are left open.</summary>
    [Fact]
    public void Nothing_that_can_be_stated_takes_less()
    {
        ShopFiles shop = SolvedShop.Only(Blanks, Cords);
        SolveOption chosen = SolvedShop.Chosen(SolvedShop.Solve("label-clip", SolvedShop.Clip(), shop, InSmallRack));
        output.WriteLine(Line(chosen));
        double least = double.MaxValue;
        foreach (string blank in Blanks)
        {
            foreach (string cord in Cords)
            {
                foreach (string cutter in Cutters)
                {
                    string stated = $"blank = \"{blank}\"\ngasket = \"{cord}\"\ntrim_tool = \"{cutter}\"";
                    Stage<Solved> solved = SolvedShop.Solve("label-clip", SolvedShop.Clip(stated), shop);
                    if (solved is { Ok: true, Value.Report: { Meets: true } report })
                    {
                        output.WriteLine(Line(report.Chosen));
                        least = Math.Min(least, report.Chosen.BatchMinutes);
                    }
                }
            }
        }
        Assert.InRange(chosen.BatchMinutes, 0, least * (1 + Gap));
    }

    /// <summary>Passes and magnets stated one by one, likewise.</summary>
    [Fact]
    public void No_other_number_of_passes_or_magnets_takes_less()
    {
        ShopFiles shop = SolvedShop.Only(["hdpe-8-5"], ["sponge-3-32"]);
        const string Cutter = "trim_tool = \"trim-1-8-up\"";
        SolveOption chosen = SolvedShop.Chosen(SolvedShop.Solve("label-clip", SolvedShop.Clip(Cutter), shop));
        output.WriteLine(Line(chosen));
        for (int passes = 1; passes <= 8; passes++)
        {
            for (int magnets = 1; magnets <= 3; magnets++)
            {
                string more = FormattableString.Invariant($"[trim]\npasses = {passes}\n[magnets]\ncount = {magnets}");
                Stage<Solved> solved = SolvedShop.Solve("label-clip", SolvedShop.Clip(Cutter, more), shop);
                if (solved is { Ok: true, Value.Report: { Meets: true } report })
                {
                    output.WriteLine(Line(report.Chosen));
                    Assert.True(chosen.BatchMinutes <= report.Chosen.BatchMinutes * (1 + Gap), more);
                }
            }
        }
    }

    /// <summary>A cord, a disc, a blank or a cutter more in the shop never makes what is chosen worse.</summary>
    [Theory]
    [InlineData("gaskets/sponge-3-32")]
    [InlineData("magnets/disc-12-7x6-35")]
    [InlineData("blanks/al6061-8-5")]
    [InlineData("tools/trim-1-8-down")]
    public void More_in_the_shop_is_never_worse(string taken)
    {
        string name = taken.Split('/')[1];
        SolveOption whole = SolvedShop.Chosen(
            SolvedShop.Solve("label-clip", SolvedShop.Clip(), DemoShop.Files.Remembered())
        );
        SolveOption less = SolvedShop.Chosen(
            SolvedShop.Solve("label-clip", SolvedShop.Clip(), SolvedShop.Without(taken), t => t.Name != name)
        );
        output.WriteLine(Line(whole));
        output.WriteLine(Line(less));
        Assert.True(whole.BatchMinutes <= less.BatchMinutes * (1 + Gap));
    }

    /// <summary>A job that states what would be chosen gives the same programs, byte for byte.</summary>
    [Fact]
    public void Stating_what_is_chosen_gives_the_same_programs()
    {
        Outcome open = Make(SolvedShop.Clip());
        Assert.True(open.Report.Ok, string.Join('\n', open.Findings));
        IReadOnlyDictionary<string, string> keys = open.Report.Solve!.Chosen.Keys;
        string Table(string table) =>
            string.Join(
                '\n',
                keys.Where(k => k.Key.StartsWith(table + ".", StringComparison.Ordinal))
                    .Select(k => $"{k.Key[(table.Length + 1)..]} = {k.Value}")
            );
        string text = SolvedShop
            .Clip(Table("shop"), $"[magnets]\n{Table("magnets")}\n[trim]\n{Table("trim")}")
            .Replace("by = \"auto\"", $"by = \"pins\"\n{Table("locator")}", StringComparison.Ordinal);
        output.WriteLine(text);
        Outcome stated = Make(text);

        Assert.True(stated.Report.Ok, string.Join('\n', stated.Findings));
        Assert.Equal(keys.Count, stated.Report.Solve!.Chosen.Stated.Count);
        Assert.Equal(Programs(open), Programs(stated));
    }

    /// <summary>The planner's own clock, by which choices are ranked, agrees with the judge's, which reads the text.</summary>
    [Fact]
    public void Minutes_are_about_the_judge_s()
    {
        Outcome made = Make(SolvedShop.Clip());
        double trim = made.Report.Programs!.First(p => p.Setup == "trim").Minutes;
        double block = made.Report.Programs!.Where(p => p.Setup != "trim").Sum(p => p.Minutes);

        Assert.InRange(made.Report.Solve!.Chosen.TrimMinutes, 0.88 * trim, 1.03 * trim);
        Assert.InRange(made.Report.Solve.Chosen.BlockMinutes, 0.95 * block, 1.03 * block);
    }

    /// <summary>What the job states is honoured, and what it costs is said: a slow feed takes longer than the one that would be chosen.</summary>
    [Fact]
    public void What_a_stated_feed_costs_is_said()
    {
        string slow = SolvedShop.Clip(more: "[trim]\npasses = 4\nrpm = 13000\nfeed = \"700 mm/min\"");
        Outcome made = Delivery.Check(Request(slow) with { StatedCosts = true });
        Assert.True(made.Report.Ok, string.Join('\n', made.Findings));
        Assert.Equal("\"700 mm/min\"", made.Report.Solve!.Chosen.Keys["trim.feed"]);
        Assert.Equal("4", made.Report.Solve.Chosen.Keys["trim.passes"]);
        Assert.Contains(made.Report.Solve.Stated, s => s.Key == "trim.feed" && s.Minutes > 1);
    }

    /// <summary>A limit that no shop meets is refused, with the nearest and with what would mend it or that nothing tried does.</summary>
    [Fact]
    public void What_cannot_be_held_is_refused_with_the_nearest_and_what_would_mend_it()
    {
        Outcome refused = Delivery.Check(
            Request(SolvedShop.Clip(more: "[magnets]\ncount = 1\n[limits]\nvacuum_factor = 40"))
        );
        Assert.False(refused.Report.Ok);
        Assert.False(refused.Report.Solve!.Meets);
        Assert.NotEmpty(refused.Report.Solve.Mend);
        Finding said = Assert.Single(refused.Findings, f => f.Code == "limits-not-met");
        Assert.Equal(refused.Report.Solve.Mend, said.Remedy);
        output.WriteLine(said.Message + " " + said.Remedy);
    }

    private static IEnumerable<(string, string)> Programs(Outcome made) =>
        made
            .Files.Where(f => f.Name.EndsWith(".nc", StringComparison.Ordinal))
            .Select(f => (f.Name, System.Text.Encoding.UTF8.GetString(f.Bytes.AsSpan())));

    private static Outcome Make(string text) => Delivery.Make(Request(text));

    private static Request Request(string text) =>
        new()
        {
            JobName = "label-clip",
            JobFile = "outlines/label-clip.toml",
            JobText = text,
            DrawingFile = "outlines/label-clip.dxf",
            Drawing = File.ReadAllBytes(Path.Combine(DemoShop.Root, "outlines", "label-clip.dxf")),
            Shop = DemoShop.Files,
            Registered = new Registered(1090, "LC-7", 1, Overrules: false),
            Version = "test",
            Progress = static _ => { },
        };

    private static string Line(SolveOption o) =>
        FormattableString.Invariant(
            $"{o.BatchMinutes:0.00} min: trim {o.TrimMinutes:0.000}, block {o.BlockMinutes:0.00}, {o.Magnets} magnets, {o.Vacuum:0.00} {o.Stopping:0.00}: {string.Join(' ', o.Keys.Select(k => k.Value))}"
        );
}

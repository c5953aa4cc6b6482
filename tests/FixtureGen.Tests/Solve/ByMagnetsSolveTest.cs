using FixtureGen.Model;
using FixtureGen.Shop.Reading;
using FixtureGen.Solve.Search;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Solve;

/// <summary>A small shell that no cord fits: magnets alone are tried and named, and a job that asks for them is solved.</summary>
[Trait("Speed", "Slow")]
public sealed class ByMagnetsSolveTest
{
    /// <summary>One blank and one disc, so that the search is short.</summary>
    private static readonly ShopFiles Shop = SolvedShop.Without([
        .. DemoShop.Files.List("blanks").Where(b => b != "al6061-8-5").Select(b => $"blanks/{b}"),
        .. DemoShop.Files.List("magnets").Where(m => m != "disc-12-7x6-35").Select(m => $"magnets/{m}"),
    ]);

    private static string Text(string hold) =>
        File.ReadAllText(Path.Combine(DemoShop.Root, "outlines", "tip-guard.toml"))
            .Replace("[hold]\nby = \"magnets\"\n", hold, StringComparison.Ordinal)
            .Replace("[shop]\n", "[shop]\ntrim_tool = \"trim-1-8-down\"\n", StringComparison.Ordinal);

    [Fact]
    public void No_cord_fits_and_magnets_are_named_as_they_were_tried()
    {
        Stage<Solved> solved = SolvedShop.Solve("tip-guard", Text(""), Shop);
        Assert.False(solved.Ok);
        Assert.Contains(solved.Findings, f => f.Code is "no-sealed-zone" or "magnets-do-not-fit");
        Finding note = Assert.Single(solved.Findings, f => f.Code == "hold-by-magnets");
        Assert.Contains("[hold] by = \"magnets\"", note.Remedy, StringComparison.Ordinal);
        Assert.Contains("3 discs disc-12-7x6-35, factor 2.0", note.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void The_job_that_asks_for_magnets_meets_the_limit_under_the_full_load()
    {
        SolveOption chosen = SolvedShop.Chosen(SolvedShop.Solve("tip-guard", Text("[hold]\nby = \"magnets\"\n"), Shop));
        Assert.Equal(0, chosen.Vacuum);
        Assert.True(chosen.MagnetsOnly >= 2);
        Assert.DoesNotContain(chosen.Keys, k => k.Key == "shop.gasket");
    }
}

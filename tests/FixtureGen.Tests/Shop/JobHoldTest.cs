using FixtureGen.Model;
using FixtureGen.Shop.Jobs;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Shop;

/// <summary>What a job says holds its shell, and what contradicts it.</summary>
public sealed class JobHoldTest
{
    private static readonly string Stated = File.ReadAllText(DemoShop.StatedJob("tip-guard"));

    private static string Bare => Stated.Replace("[hold]\nby = \"magnets\"\n", "", StringComparison.Ordinal);

    private static Stage<Job> Read(string text) => JobReader.Read(text, "job.toml", DemoShop.Files);

    [Fact]
    public void Vacuum_where_nothing_is_said() => Assert.Equal(HoldBy.Vacuum, DemoDesign.Good(Read(Bare)).HoldBy);

    /// <summary>A word at the top and the table's key are one and the same; no cord is read, nor counted among the sources.</summary>
    [Fact]
    public void Magnets_are_said_at_the_top_or_in_the_table()
    {
        Job table = DemoDesign.Good(Read(Stated));
        Job top = DemoDesign.Good(Read("hold = \"magnets\"\n" + Bare));
        Assert.All(
            new[] { table, top },
            j =>
            {
                Assert.Equal(HoldBy.Magnets, j.HoldBy);
                Assert.Same(Gasket.None, j.Gasket);
                Assert.Empty(j.OtherGaskets);
                Assert.False(j.Open.HasFlag(OpenKeys.Gasket));
                Assert.DoesNotContain(j.Sources, s => s.Contains("gaskets", StringComparison.Ordinal));
            }
        );
    }

    [Theory]
    [InlineData(
        "magnet = \"disc-12-7x6-35\"",
        "magnet = \"disc-12-7x6-35\"\ngasket = \"sponge-1-8\"",
        "names a gasket"
    )]
    [InlineData("count = 3", "count = 0", "wants no magnets")]
    [InlineData("[magnets]", "[skirt]\nhold = \"sealed-land\"\n[magnets]", "sealed land")]
    [InlineData("[magnets]", "[[port]]\nat = [20, 16]\n[magnets]", "vacuum port")]
    public void What_needs_a_vacuum_contradicts_it(string from, string to, string said)
    {
        Finding finding = Assert.Single(
            Read(Stated.Replace(from, to, StringComparison.Ordinal)).Findings,
            f => f.Severity == Severity.Error
        );
        Assert.Equal("shop-contradiction", finding.Code);
        Assert.Contains(said, finding.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("by = \"magnets\"\n", "by = \"magnet\"\n")]
    [InlineData("by = \"magnets\"\n", "by = \"clamps\"\n")]
    public void An_unknown_word_is_refused_with_those_there_are(string from, string to)
    {
        int at = Stated.LastIndexOf(from, StringComparison.Ordinal);
        Finding finding = Assert.Single(Read(Stated[..at] + to).Findings, f => f.Severity == Severity.Error);
        Assert.Equal("toml-not-a-choice", finding.Code);
    }

    [Fact]
    public void A_reason_for_a_low_hold_stands_beside_it()
    {
        Job job = DemoDesign.Good(Read(Stated + "accept_low_hold = \"first trial\"\n"));
        Assert.Equal("first trial", job.AcceptLowHold);
        Assert.Equal(HoldBy.Magnets, job.HoldBy);
    }
}

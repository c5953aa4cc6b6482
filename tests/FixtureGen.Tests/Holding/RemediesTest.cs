using System.Globalization;
using System.Text.RegularExpressions;
using FixtureGen.Cutting;
using FixtureGen.Design;
using FixtureGen.Drawing;
using FixtureGen.Drawing.Chaining;
using FixtureGen.Drawing.Roles;
using FixtureGen.Geometry;
using FixtureGen.Holding;
using FixtureGen.Holding.Seal;
using FixtureGen.Model;
using FixtureGen.Solve;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Holding;

/// <summary>A remedy is tried before it is said: doing what it says gives the factor that it says.</summary>
public sealed partial class RemediesTest
{
    private static readonly Job Job = HeldDesigns.Job();

    private static readonly Part Small = HeldDesigns.Part(Contours.RoundedRectangle(new Box2(60, 60, 160, 140), 14));

    private static HoldingResult Of(FixtureDesign design, Job job) =>
        HoldingAnalysis.Context(design, job, Tolerances.House).Value!.Evaluate(design.Magnets);

    private static Remedies Tried(FixtureDesign design, Job job) => new(design, job, Tolerances.House);

    [GeneratedRegex(@"(\d+) passes through the shell for (\d+) give (\d+\.\d+)")]
    private static partial Regex PassesSaid();

    [GeneratedRegex(@"A trim feed of (\d+) mm/min for (\d+) gives (\d+\.\d+)", RegexOptions.IgnoreCase)]
    private static partial Regex FeedSaid();

    private static double Figure(Match m, int group) =>
        double.Parse(m.Groups[group].Value, CultureInfo.InvariantCulture);

    [Theory]
    [InlineData(1.2)]
    [InlineData(2)]
    public void More_passes_give_what_is_said_and_one_fewer_is_not_enough(double times)
    {
        FixtureDesign design = HeldDesigns.Of(Small, Job);
        double factor = Of(design, Job).VacuumOnly.Factor;
        double limit = times * factor;
        Match said = PassesSaid().Match(Tried(design, Job).ForVacuum(factor, limit));
        Assert.True(said.Success);
        int passes = (int)Figure(said, 1);
        double then = Of(design, Job with { TrimPasses = passes }).VacuumOnly.Factor;
        Assert.Equal(Figure(said, 3), then, 0.006);
        Assert.True(then >= limit);
        Assert.True(Of(design, Job with { TrimPasses = passes - 1 }).VacuumOnly.Factor < limit);
    }

    [Fact]
    public void A_slower_feed_is_said_only_where_its_chip_is_still_in_the_chart()
    {
        Job fast = Job with { TrimRpm = 18000, TrimFeedMmPerMin = 1700 };
        FixtureDesign design = HeldDesigns.Of(Small, fast);
        double factor = Of(design, fast).VacuumOnly.Factor;
        Match said = FeedSaid().Match(Tried(design, fast).ForVacuum(factor, 1.15 * factor));
        Assert.True(said.Success);
        Job slower = fast with { TrimFeedMmPerMin = Figure(said, 1) };
        Assert.Equal(Figure(said, 3), Of(design, slower).VacuumOnly.Factor, 0.006);
        double least = Feeds.ChipLoadRange(fast.TrimTool, fast.ShellMaterial).Least;
        Assert.True(Figure(said, 1) / 18000 / fast.TrimTool.Flutes >= least);
        Assert.DoesNotMatch(FeedSaid(), Tried(design, fast).ForVacuum(factor, 20 * factor));
    }

    // One more such magnet is enough: then one is asked for, never many.
    [Fact]
    [Trait("Speed", "Slow")]
    public void One_magnet_is_asked_for_where_one_is_enough()
    {
        (FixtureDesign design, Job job) = Designed("count = 2");
        double factor = Of(design, job).MagnetsStopping.Stays;
        string said = Tried(design, job).ForMagnets(factor, 1.1 * factor);
        Assert.Contains("one such magnet more gives ", said, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("magnets more", said, StringComparison.Ordinal);
        (FixtureDesign three, Job asked) = Designed("count = 3");
        Assert.Contains(
            FormattableString.Invariant($"more gives {Of(three, asked).MagnetsStopping.Stays:0.00}"),
            said,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void A_shell_laid_by_hand_is_told_of_pins_with_the_factor_they_give()
    {
        (FixtureDesign design, Job job) = Designed("count = 2");
        double factor = Of(design, job).MagnetsStopping.Stays;
        Assert.Contains(
            "wo locator pins in the scrap for laying it by hand give ",
            Tried(design, job).ForMagnets(factor, 1),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Where_nothing_is_enough_the_nearest_is_named_as_that()
    {
        FixtureDesign design = HeldDesigns.Of(Small, Job);
        double factor = Of(design, Job).VacuumOnly.Factor;
        Assert.StartsWith(
            "No single change tried is enough; the nearest: ",
            Tried(design, Job).ForVacuum(factor, 100 * factor),
            StringComparison.Ordinal
        );
    }

    // Pushes of one cord go as its 25 % pressure: the hardest grade that takes half of the vacuum at most is named.
    [Theory]
    [InlineData(89.7, "grade 3")]
    [InlineData(89.5, "grade 2")]
    [InlineData(62.2, "grade 2")]
    [InlineData(62.0, "grade 1")]
    [InlineData(34.6, "grade 1")]
    [InlineData(34.4, "No sponge of this section is soft enough")]
    public void The_hardest_cord_that_leaves_half_the_vacuum_is_named(double halfKPa, string named)
    {
        Gasket sponge = Job.Gasket with { Kind = CordKind.Sponge, P25MinKPa = halfKPa, P25MaxKPa = halfKPa };
        double gross = 2 * CordForce.HardestNPerMm(sponge, 0) * 600;

        Assert.Contains(named, CordRemedy.ThatSeats(Job.Gasket, 600, gross), StringComparison.Ordinal);
    }

    private static (FixtureDesign Design, Job Job) Designed(string magnets)
    {
        string drawing = Path.Combine(DemoShop.Root, "outlines", "pruner-sheath.dxf");
        Job job = DemoShop.Job(DemoShop.PlainJob(more: $"[locator]\nby = \"hand\"\n[magnets]\n{magnets}"));
        DrawingContent read = DxfReader.Read(File.ReadAllBytes(drawing), "d.dxf", null, Tolerances.House).Value!;
        Part part = PartBuilder.Build(read, job).Value!;
        Placement placement = Placing.Place(part, job, Tolerances.House).Value!;
        FixtureDesign begun = Designer.Begin(part, placement, job, Tolerances.House).Value!;
        return (
            Designer
                .Finish(begun, MagnetPlacement.Choose(begun, job, Tolerances.House).Value, job, Tolerances.House)
                .Value!,
            job
        );
    }
}

using FixtureGen.Model;
using FixtureGen.Output.Pictures;
using FixtureGen.Output.Scenes;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Tests.Output;

public sealed class VerifyPictureTest
{
    [Fact]
    public void Errors_are_numbered_first_and_every_placed_finding_gets_its_number()
    {
        Job job = SampleJob.Create();
        FixtureDesign design = SampleDesign.Create(job);
        BlockGrid block = SampleBlock.Carve(design, 0.2);
        Finding[] findings =
        [
            new("feed-high", Severity.Warning, "top.nc", "feed 12000 mm/min over the machine's 10000", "lower F")
            {
                Line = 12,
            },
            new(
                "gouge-side",
                Severity.Error,
                "top.nc",
                "the 6.35 mm cutter goes 0.41 mm into the land, deeper than the 0.02 mm allowed for any wall",
                "lower the path"
            )
            {
                Line = 204,
                At = new Point2(91, 160),
            },
            new("left-over", Severity.Error, "top.nc", "0.6 mm of material is left in the port", "add a pass")
            {
                Line = 310,
                At = new Point2(108, 108),
            },
        ];
        using Pixels plan = BlockPicture.Plan(block, new Tint(Colour.FromRgb(0xEDEDED)));
        Scene scene = VerifyPicture.Draw(design, block, plan, findings);
        Looked.At("verify.png", SkiaDraw.Png(scene, 6));
        string[] texts = [.. scene.Inks.OfType<TextInk>().Select(t => t.Text)];
        Assert.Equal(2, texts.Count(t => t == "1"));
        Assert.Equal(2, texts.Count(t => t == "2"));
        Assert.DoesNotContain("3", texts);
        Assert.Contains(texts, t => t.StartsWith("warning feed-high, line 12:", StringComparison.Ordinal));
    }

    /// <summary>The judge names places in the frame it read; the picture is in the plate frame of the top setup.</summary>
    [Fact]
    public void A_finding_on_the_underside_is_marked_where_it_lies_seen_from_above()
    {
        FixtureDesign design = SampleDesign.Create(SampleJob.Create());
        Finding below = new("gouge", Severity.Error, "underside.nc", "cut too deep", "lower the path")
        {
            At = new Point2(10, 30),
        };
        Assert.Equal(
            new Point2((2 * design.Flip!.Value.AxisX) - 10, 30),
            VerifyPicture.OnTop(design, Setup.Underside, below).At
        );
        Assert.Equal(below, VerifyPicture.OnTop(design, Setup.Top, below));
    }
}

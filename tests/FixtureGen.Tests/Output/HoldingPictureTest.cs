using FixtureGen.Model;
using FixtureGen.Output.Pictures;
using FixtureGen.Output.Scenes;
using Xunit;

namespace FixtureGen.Tests.Output;

public sealed class HoldingPictureTest
{
    [Fact]
    public void Weaker_bands_are_darker_and_the_ends_belong_to_the_stronger_side()
    {
        for (int i = 1; i < FactorScale.Bands; i++)
        {
            Assert.True(FactorScale.ColourOf(i).Lightness - FactorScale.ColourOf(i - 1).Lightness > 15);
        }
        Assert.Equal([0, 1, 2, 3, 4, 5], new[] { 0.99, 1, 1.5, 2, 3, 5 }.Select(FactorScale.Band));
    }

    [Fact]
    public void Picture_is_the_same_bytes_and_names_each_worst_factor()
    {
        Job job = SampleJob.Create();
        FixtureDesign design = SampleDesign.Create(job);
        HoldingResult holding = SampleHolding.Create(design);
        byte[] png = HoldingPicture.Png(design, holding, job.Limits);
        Looked.At("holding.png", png);
        Assert.Equal(png, HoldingPicture.Png(design, holding, job.Limits));
        string[] texts =
        [
            .. HoldingPicture.Draw(design, holding, job.Limits).Inks.OfType<TextInk>().Select(t => t.Text),
        ];
        foreach (HoldAnswer answer in new[] { holding.VacuumOnly, holding.MagnetsStopping, holding.Both })
        {
            Assert.Contains(FactorScale.Text(answer.Factor), texts);
        }
    }
}

using FixtureGen.Model;
using FixtureGen.Shop;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Shop;

public sealed class JobTemplateTest
{
    [Theory]
    [InlineData(LengthUnit.Millimetre, 120, 80, false, "8-5")]
    [InlineData(LengthUnit.Inch, 120, 80, true, "8-5")]
    [InlineData(LengthUnit.Millimetre, 230, 80, false, "10")]
    [InlineData(null, 5, 3, false, "8-5")]
    public void A_fresh_job_reads_without_an_error(
        LengthUnit? unit,
        double width,
        double height,
        bool form,
        string blank
    )
    {
        string text = JobTemplate.NewJob(
            new DrawingFacts("bulb-dibber", unit, width, height, form, false),
            DemoShop.Files
        );
        Job job = DemoShop.Job(text, "bulb-dibber");

        Assert.Equal("Bulb dibber", job.Title);
        Assert.Equal("BD-1", job.FixtureId);
        Assert.EndsWith(blank, job.Blank.Name, StringComparison.Ordinal);
        Assert.Equal(1, job.TrimTool.Flutes);
        Assert.Equal(CordKind.Sponge, job.Gasket.Kind);
        Assert.Equal(form ? LocatorKind.Form : LocatorKind.Hand, job.Locator);
        Assert.Equal(unit is null, text.Contains("unit = \"mm\"", StringComparison.Ordinal));
    }
}

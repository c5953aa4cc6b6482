using FixtureGen.Model;
using FixtureGen.Output;
using FixtureGen.Tests.Dxf;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Design;

/// <summary>A part that leaves no room for a relief of one pass still gets the one that it needs.</summary>
public sealed class NarrowReliefTest
{
    /// <summary>212.3 mm are free of an 8 1/2 in blank: 203 and two reliefs of 4.26 mm fit, 204.4 only with two of 3.68, 205.6 not at all.</summary>
    [Theory]
    [InlineData(203, true, false)]
    [InlineData(204.4, true, true)]
    [InlineData(205.6, false, false)]
    public void The_relief_gives_way_before_the_blank_does(double width, bool fits, bool narrow)
    {
        Outcome outcome = Delivery.Check(SketchedRequest.Make(Sketch.Rectangle(0, 0, width, 100, "OUTLINE")));
        Assert.Equal(fits, outcome.Design is not null);
        Assert.Equal(fits, outcome.Findings.All(f => f.Code != "part-does-not-fit"));
        Assert.Equal(narrow, outcome.Findings.Any(f => f.Code == "relief-narrow"));
        if (narrow)
        {
            Assert.StartsWith(
                "the blank has no room for a relief that one pass cuts: it is 0.587 mm narrower",
                Assert.Single(outcome.Findings, f => f.Code == "relief-narrow").Message,
                StringComparison.Ordinal
            );
            Assert.DoesNotContain(outcome.Findings, f => f.Severity == Severity.Error && f.Code == "part-over-edge");
        }
    }
}

using FixtureGen.Model;
using FixtureGen.Verify.Tests.Support;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Verify.Tests;

/// <summary>A good program at the corners of what a shop cannot hold exactly: the finding says which corner fails.</summary>
public sealed class CornerTest
{
    private static Job Tolerant(double thickness) =>
        PocketTest.Job with
        {
            Blank = PocketTest.Job.Blank with { ThicknessTolerance = thickness },
        };

    [Theory]
    [InlineData(0.5, null)]
    [InlineData(0.96, "all of them at once")]
    [InlineData(1.2, "a blank 1.2 mm thicker")]
    public void Rapid_over_a_blank_that_is_thicker(double tolerance, string? corner)
    {
        string text = TestShop.Program(
            PocketTest.Rings.Replace(
                "G0 X40. Y45.\nG0 Z21.",
                "G0 X20. Y45.\nG0 Z21.\nG0 X40.",
                StringComparison.Ordinal
            )
        );
        VerifyResult result = TestShop.Judge(Tolerant(tolerance), PocketTest.Design, text);
        string[] found = [.. result.Findings.Where(f => f.Code == "corner").Select(f => f.Message)];
        Assert.Equal(corner is null, result.Ok);
        if (corner is null)
        {
            Assert.Empty(found);
            return;
        }
        Assert.Contains(
            found,
            m => m.StartsWith($"with {corner} a rapid runs into what stands", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Holder_that_clears_the_planned_blank_meets_the_thickest()
    {
        Tool stubby = TestShop.EndMill(1, 6) with { StickOut = 3.4 };
        Job job = TestShop.Job(stubby) with { Blank = PocketTest.Job.Blank with { ThicknessTolerance = 0.6 } };
        string text = TestShop.Program(PocketTest.Rings);
        VerifyResult result = TestShop.Judge(job, PocketTest.Design, text);
        Assert.DoesNotContain("holder-hits-block", result.Findings.Select(f => f.Code));
        Finding finding = result.Findings.First(f => f.Code == "corner");
        Assert.StartsWith(
            "with a blank 0.6 mm thicker the tool's holder meets what stands, 0.2",
            finding.Message,
            StringComparison.Ordinal
        );
    }

    /// <summary>Cutting the face lower would be the one way that needs no measuring; stock of 12.7 mm +/- 0.38 with 0.2 mm to skim.</summary>
    [Theory]
    [InlineData(0.1, null)]
    [InlineData(0.38, "with a blank 0.38 mm thinner the face stays raw, 0.18 mm below what is skimmed")]
    public void Skim_that_the_thinnest_blank_lies_below(double tolerance, string? said)
    {
        double face = PocketTest.Job.BlankThickness - 0.2;
        FixtureDesign pocket = PocketTest.Design;
        Feature skim = TestShop.Pocket(
            "skim",
            FeatureKind.Skim,
            Setup.Top,
            TestShop.Rounded(30, 40, 70, 60, 4),
            face + 0.2,
            face
        );
        FixtureDesign design = pocket with { FixtureHeight = face, Features = [.. pocket.Features, skim] };
        VerifyResult result = TestShop.Judge(Tolerant(tolerance), design, TestShop.Program(PocketTest.Rings));
        string[] found =
        [
            .. result
                .Findings.Where(f => f.Code == "corner" && f.Message.Contains("thinner", StringComparison.Ordinal))
                .Select(f => f.Message),
        ];
        Assert.Equal(said is null ? [] : [said], found);
    }
}

using FixtureGen.Design.Labels;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Design;

/// <summary>Texts of the engraving layer are cut as drawn, or refused with what to do.</summary>
public sealed class MarkLettersTest
{
    private static readonly Job Job = DemoShop.Job(DemoShop.PlainJob());

    private static Stage<Part> Cut(string text, double height = 5, double x = 20, double angle = 0)
    {
        Part part = HeldDesigns.Part(Contours.Rectangle(new Box2(0, 0, 120, 80)));
        return MarkLetters.Cut(part with { Engravings = [new EngraveMark([], text, new(x, 30), height, angle)] }, Job);
    }

    // ISO 3098 type B: the capital's outer height is h, so centre lines stay half a stroke (h/20) inside it.
    [Theory]
    [InlineData(0, 20.25, 30.25, 34.75)]
    [InlineData(90, 15.25, 30.25, 30.25)]
    public void Text_becomes_strokes_from_its_baseline_in_its_direction(
        double angle,
        double minX,
        double minY,
        double top
    )
    {
        EngraveMark mark = Assert.Single(Cut("HI", angle: angle).Value!.Engravings);
        Point2[] ends = [.. mark.Strokes.SelectMany(s => new[] { s.Start, s.End })];

        Assert.Equal(minX, ends.Min(p => p.X), 6);
        Assert.Equal(minY, ends.Min(p => p.Y), 6);
        Assert.Equal(angle == 0 ? top : 19.75, angle == 0 ? ends.Max(p => p.Y) : ends.Max(p => p.X), 6);
    }

    [Fact]
    public void A_character_without_a_letter_is_refused_with_the_ones_there_are()
    {
        Finding f = Assert.Single(Cut("№ 5").Findings);

        Assert.Equal(("text-character", Severity.Error), (f.Code, f.Severity));
        Assert.Contains("'№'", f.Message, StringComparison.Ordinal);
        Assert.Contains("capitals, digits", f.Remedy, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("TEXT", 1.0, 20, "text-too-small")]
    [InlineData("TEXT", 5, 110, "text-over-edge")]
    public void A_text_that_cannot_be_cut_whole_is_refused(string text, double height, double x, string code) =>
        Assert.Equal((code, Severity.Error), Cut(text, height, x).Findings.Select(f => (f.Code, f.Severity)).Single());
}

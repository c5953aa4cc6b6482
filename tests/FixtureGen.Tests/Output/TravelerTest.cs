using FixtureGen.Output.Papers;
using FixtureGen.Output.Scenes;
using Xunit;

namespace FixtureGen.Tests.Output;

public sealed class TravelerTest
{
    [Theory]
    [InlineData("A4")]
    [InlineData("Letter")]
    public void Traveler_is_one_sheet_and_the_same_bytes(string paper)
    {
        PaperFacts facts = SampleFacts.Create(paper);
        byte[] pdf = Traveler.Pdf(facts);
        Looked.At($"traveler.{paper}.pdf", pdf);
        Assert.Equal(pdf, Traveler.Pdf(facts));
        Assert.InRange(Traveler.Draw(facts).Count, 1, 2);
    }

    [Fact]
    public void Exactly_as_many_magnets_are_laid_out_as_the_fixture_has()
    {
        PaperFacts facts = SampleFacts.Create();
        string[] texts = [.. Traveler.Draw(facts).SelectMany(p => p.Inks).OfType<TextInk>().Select(t => t.Text)];
        Assert.Contains("Magnets to see: 4", texts);
        Assert.Contains("4", texts);
        Assert.DoesNotContain("5", texts);
    }

    /// <summary>The page is drawn by poppler and read by zbar: neither knows how the code was made.</summary>
    [Fact]
    [Trait("Speed", "Slow")]
    public void Qr_code_on_the_drawn_page_says_job_and_revision()
    {
        PaperFacts facts = SampleFacts.Create();
        Tools.Run("zbarimg", "zbar-tools", "--version");
        byte[] page = Tools.Picture(Traveler.Pdf(facts), 150);
        string words = Tools.Run("zbarimg", "zbar-tools", "-q --raw page.png", ("page.png", page));
        Assert.Equal("pruner-sheath F-017 rev 2", words.Trim());
    }
}

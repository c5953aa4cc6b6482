using FixtureGen.Output.Papers;
using Xunit;

namespace FixtureGen.Tests.Output;

public sealed class SetupSheetTest
{
    [Theory]
    [InlineData("A4")]
    [InlineData("Letter")]
    public void The_same_facts_give_the_same_bytes(string paper)
    {
        PaperFacts facts = SampleFacts.Create(paper);
        byte[] pdf = SetupSheet.Pdf(facts);
        Looked.At($"setup.{paper}.pdf", pdf);
        Assert.Equal(pdf, SetupSheet.Pdf(facts));
    }
}

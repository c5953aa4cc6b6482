using FixtureGen.Design.Labels;
using FixtureGen.Model;
using FixtureGen.Tests.Design;
using Xunit;

namespace FixtureGen.Tests.Program;

public sealed class PlainTextTest
{
    [Theory]
    [InlineData("Gießkanne 50%", "Giesskanne 50 pct", false)]
    [InlineData("Pflückkorb (groß); É", "Pfluckkorb [gross], E", false)]
    [InlineData("Łopatka ræv", "Lopatka raev", false)]
    [InlineData("移植ごて", "????", true)]
    public void Text_is_spelled_in_what_every_control_reads(string text, string plain, bool lost) =>
        Assert.Equal((plain, lost), PlainText.Spell(text));

    /// <summary>The plate on the block and the first comment of the trim are compared letter by letter at the machine.</summary>
    [Fact]
    public void A_label_is_spelled_as_the_program_spells_it()
    {
        string label = Label.Text(DesignBench.Job with { Title = "Gießkanne 50%" }, 0);
        Assert.StartsWith("GIESSKANNE 50 PCT ", label, StringComparison.Ordinal);
    }
}

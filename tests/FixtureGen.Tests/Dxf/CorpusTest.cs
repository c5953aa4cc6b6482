using FixtureGen.Drawing;
using FixtureGen.Drawing.Chaining;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Dxf;

public sealed class CorpusTest
{
    [Theory]
    [MemberData(nameof(Drawings.Names), MemberType = typeof(Drawings), DisableDiscoveryEnumeration = true)]
    public void Loops_agree_with_the_independent_reader(string name)
    {
        string folder = Drawings.Need();
        Stage<DrawingContent> read = DxfReader.Read(
            File.ReadAllBytes(Path.Combine(folder, "files", name)),
            name,
            null,
            Tolerances.House
        );
        string? difference = CorpusComparison.Difference(read, OracleDrawing.Load(Drawings.Oracle(name)));
        Assert.True(CorpusComparison.Known(name) == difference, difference);
    }
}

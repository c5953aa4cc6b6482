using Xunit;

namespace FixtureGen.House.Tests;

/// <summary>What src/ declares, src/ uses: a member that serves tests only belongs to the tests.</summary>
[Trait("Speed", "Slow")]
public sealed class MembersTest
{
    /// <summary>What nobody in src/ names, with why it stands there all the same.</summary>
    private static readonly Dictionary<string, string> Kept = new(StringComparer.Ordinal)
    {
        ["FixtureGen.Holding.Block.BlockHolding.Asked.Broken"] = "part of a key, read by its equality",
        ["FixtureGen.Model.Interval.implicit operator FixtureGen.Model.Interval(double)"] =
            "a word of the vocabulary: an exact value where a range is wanted",
        ["FixtureGen.Geometry.CurveIndex.TouchingPairs(System.Collections.Generic.List<long>)"] =
            "one side of the index whose other questions the kernel asks; its test asks all",
        ["FixtureGen.Geometry.Loop.From(System.Collections.Generic.IReadOnlyList<FixtureGen.Model.Region>)"] =
            "how the proofs are shown a result that did not come from the kernel",
        [
            "FixtureGen.Geometry.Overlay.Run(System.Collections.Generic.IReadOnlyList<FixtureGen.Model.Region>, System.Collections.Generic.IReadOnlyList<FixtureGen.Model.Region>, System.Func<int, int, bool>, double)"
        ] = "how benches and proofs' tests reach one overlay without the kernel around it",
        ["FixtureGen.Solve.MagnetObjective.Factor(System.Collections.Generic.IReadOnlyList<FixtureGen.Model.Point2>)"] =
            "what the search maximises, for its test against all places",
        [
            "FixtureGen.Solve.MagnetSearch.OnGrid(System.Collections.Generic.IReadOnlyList<FixtureGen.Model.Point2>, int)"
        ] = "the search's first half, for its test against all places",
        [
            "FixtureGen.Verify.Holding.Sliding.Lower(FixtureGen.Verify.Holding.Held, in FixtureGen.Verify.Holding.Load, FixtureGen.Verify.Holding.Twist)"
        ] = "the lower bound by statics that proves the answer in tests; its parts are the solver's own",
        ["FixtureGen.App.Page.WorkPage.Questions"] =
            "what the page answers, for the test that asks each of them wrongly",
        ["FixtureGen.Output.Outcome.Holding"] = "what came of a run; the reader of an outcome asks it",
        ["FixtureGen.Model.HoldSample.Along"] = "a sample's own figures, compared by tests",
        ["FixtureGen.Output.Pictures.FactorScale.Bands"] = "contrast of the scale's colours is tested",
        ["FixtureGen.Output.Pictures.FactorScale.ColourOf(int)"] = "contrast of the scale's colours is tested",
        ["FixtureGen.Output.Scenes.Colour.Lightness"] = "contrast of lines and colours is tested",
        ["FixtureGen.Drawing.Chaining.DrawnCurve.Line"] = "where the curve stands in the file; no finding says it yet",
        ["FixtureGen.Model.VacuumLink.LengthMm"] = "the way's length; the flow's loss is not worked out from it yet",
        ["FixtureGen.Model.Shell.Material"] = "as the job states it; the material's figures are read beside it",
    };

    [Fact]
    public void Every_member_of_src_is_used_in_src()
    {
        string[] unused = [.. UnusedMembers.Find(SourceHouse.Today)];
        string[] dead = [.. unused.Except(Kept.Keys, StringComparer.Ordinal)];
        Assert.True(dead.Length == 0, "no use in src/:\n" + string.Join('\n', dead));
        string[] revived = [.. Kept.Keys.Except(unused, StringComparer.Ordinal)];
        Assert.True(revived.Length == 0, "used again, or gone:\n" + string.Join('\n', revived));
    }
}

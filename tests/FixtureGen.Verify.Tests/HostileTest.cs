using System.Diagnostics;
using FixtureGen.Model;
using FixtureGen.Verify.Tests.Support;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Verify.Tests;

/// <summary>
/// Programs of as many lines as the judge reads, all alike: each is judged or refused, in memory that does not grow with what it
/// repeats. How long each took is printed; a check whose time went with the square of the lines would not end here.
/// </summary>
[Trait("Speed", "Slow")]
public sealed class HostileTest
{
    private const int Lines = 96_000;

    private static readonly Job Job = TestShop.Job(
        TestShop.EndMill(1, 6),
        TestShop.Ball(2, 6),
        TestShop.Cone(3, ToolKind.Engraver, 6, 60, 0.4)
    );

    public static TheoryData<string> Names => [.. Hostile.Bodies.Keys];

    [Theory]
    [MemberData(nameof(Names))]
    public void Programs_of_nothing_but_one_thing_are_judged_in_bounds(string name) =>
        Bounded(name, () => TestShop.Judge(Job, PocketTest.Design, TestShop.Program(Hostile.Bodies[name](Lines))));

    [Theory]
    [InlineData("zeros", '\0')]
    [InlineData("letters", 'A')]
    [InlineData("digits", '7')]
    [InlineData("open parentheses", '(')]
    public void A_file_that_is_no_program_is_refused_unread(string name, char of) =>
        Bounded(name, () => TestShop.Judge(Job, PocketTest.Design, new string(of, 9_999_999)));

    /// <summary>29 x 29 squares cut out of a shell: each piece is told with its line, the last but by the motion that freed it.</summary>
    [Fact]
    public void A_shell_cut_to_pieces_is_judged_in_bounds()
    {
        string cuts = string.Concat(
            Enumerable
                .Range(0, 30)
                .Select(i =>
                    FormattableString.Invariant(
                        $"G0 X5. Y{5.03 + (3.1 * i):0.##}\nG1 Z17.5 F200.\nG1 X95. F600.\nG0 Z21.\nG0 X{5.03 + (3.1 * i):0.##} Y5.\nG1 Z17.5 F200.\nG1 Y95. F600.\nG0 Z21.\n"
                    )
                )
        );
        Job job = TrimShop.Job with { TrimTool = TestShop.EndMill(9, 0.6) };
        VerifyResult result = Bounded(
            "a shell in pieces",
            () => TestShop.Judge(job, TrimShop.Design, TrimShop.Program(cuts), Setup.Trim)
        );
        Assert.InRange(result.Programs[0].Loose.Length, 29 * 29, (29 * 29) + 1);
    }

    private static VerifyResult Bounded(string name, Func<VerifyResult> judge)
    {
        Stopwatch watch = Stopwatch.StartNew();
        long allocated = GC.GetAllocatedBytesForCurrentThread();
        VerifyResult result = judge();
        double megabytes = (GC.GetAllocatedBytesForCurrentThread() - allocated) / 1e6;
        TestContext.Current.TestOutputHelper?.WriteLine(
            FormattableString.Invariant(
                $"{name}: {watch.Elapsed.TotalSeconds:0.0} s, {megabytes:0} MB allocated, {Environment.WorkingSet / 1e6:0} MB in all, {result.Findings.Count()} findings {string.Join(' ', result.Findings.Select(f => f.Code).Distinct())}"
            )
        );
        Assert.False(result.Ok);
        Assert.All(result.Findings, f => Assert.InRange(f.Message.Length, 1, 420));
        Assert.True(megabytes < 2000, FormattableString.Invariant($"{name}: {megabytes:0} MB"));
        return result;
    }
}

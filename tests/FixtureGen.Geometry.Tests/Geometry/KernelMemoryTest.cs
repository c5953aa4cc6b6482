using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Geometry;

/// <summary>What a kernel with a memory says is what one without says, and only the same question is not worked out again.</summary>
public sealed class KernelMemoryTest
{
    private static readonly Region Square = Region.From(Contours.Rectangle(new Box2(0, 0, 40, 30)));

    private static Region Disc(double x) => Region.From(Contours.Circle(new(x, 15), 8));

    private static ImmutableArray<Region>[] Everything(Kernel kernel, Region a, Region b, double amount) =>
        [
            kernel.Offset(a, amount),
            kernel.Offset(a, -amount),
            kernel.Union([a], [b]),
            kernel.Intersect([a], [b]),
            kernel.Difference([a], [b]),
            kernel.UnionAll([a, b]),
            kernel.Stroke(b.Outer, amount),
            kernel.Stroke(new OpenPath(a.Outer.Segments), amount),
            kernel.Stroke(new OpenPath([a.Outer.Segments[0]]), amount),
        ];

    private static string Written(IEnumerable<ImmutableArray<Region>> results) =>
        string.Join(
            '|',
            results.Select(r => string.Join(';', r.SelectMany(x => x.Contours).SelectMany(c => c.Segments)))
        );

    [Fact]
    public void The_same_question_gets_the_same_answer_object_and_no_other_question_does()
    {
        KernelMemory memory = new();
        ImmutableArray<Region>[] first = Everything(new(Tolerances.House, memory), Square, Disc(30), 2);
        memory.NextRound();
        ImmutableArray<Region>[] again = Everything(new(Tolerances.House, memory), Square, Disc(30), 2);
        Assert.All(first.Zip(again), p => Assert.True(p.First == p.Second));
        (double X, double Amount)[] others = [(Math.BitIncrement(30), 2), (30, Math.BitIncrement(2))];
        foreach ((double x, double amount) in others)
        {
            memory.NextRound();
            ImmutableArray<Region>[] other = Everything(new(Tolerances.House, memory), Square, Disc(x), amount);
            Assert.Equal(Written(Everything(new(Tolerances.House), Square, Disc(x), amount)), Written(other));
        }
    }

    [Fact]
    public void What_a_round_did_not_ask_is_forgotten()
    {
        KernelMemory memory = new();
        Kernel kernel = new(Tolerances.House, memory);
        ImmutableArray<Region> first = kernel.Offset(Square, 1);
        memory.NextRound();
        memory.NextRound();
        Assert.False(first == kernel.Offset(Square, 1));
    }

    [Fact]
    public void Repairs_come_again_with_their_answer()
    {
        KernelMemory memory = new();
        Contour crumbed = new([
            Segment.Line(new(0, 0), new(10, 0)),
            Segment.Line(new(10, 0), new(10, 1e-7)),
            Segment.Line(new(10, 1e-7), new(0, 10)),
            Segment.Line(new(0, 10), new(0, 0)),
        ]);
        Kernel before = new(Tolerances.House, memory);
        before.Offset(Region.From(crumbed), 1);
        Assert.NotEmpty(before.Repairs);
        Kernel after = new(Tolerances.House, memory);
        after.Offset(Region.From(crumbed), 1);
        Assert.Equal(before.Repairs, after.Repairs);
    }
}

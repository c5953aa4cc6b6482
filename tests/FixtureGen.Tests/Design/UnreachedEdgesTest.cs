using FixtureGen.Design.Trim;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Shop.Jobs;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Design;

/// <summary>What a fresh job asks about its edges, against the closed form of a round cutter in a right angle, r (sqrt 2 - 1), and the planner.</summary>
public sealed class UnreachedEdgesTest
{
    private static EdgeFacts Find(Part part, Job? job = null) =>
        UnreachedEdges.Find(part, job ?? MadePart.Job, Tolerances.House);

    [Fact]
    public void Sharp_corners_keep_what_the_thinnest_end_mill_leaves()
    {
        EdgeFacts facts = Find(MadePart.Plate(Contours.Rectangle(new Box2(40, 30, 80, 60))));
        double thinnest = MadePart.Job.Tools.Where(t => t.Kind == ToolKind.EndMill).Min(t => t.Radius);
        Assert.Equal(
            (4, thinnest * (Math.Sqrt(2) - 1)),
            (facts.Corners, facts.CornerLeft),
            (a, b) => a.Item1 == b.Item1 && Math.Abs(a.Item2 - b.Item2) < 1e-3
        );
        Assert.True(facts.AsksCorners && !facts.AsksHoles);
        Part rounded = MadePart.Plate(Contours.RoundedRectangle(new Box2(40, 30, 80, 60), thinnest));
        Assert.Equal(EdgeFacts.None, Find(rounded));
    }

    /// <summary>What it says is to be allowed lets the planner plan, a tenth less does not.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(0.3)]
    [InlineData(0.6)]
    public void What_it_says_to_allow_does(double radius)
    {
        Part part = MadePart.Plate(
            radius > 0
                ? Contours.RoundedRectangle(new Box2(40, 30, 80, 60), radius)
                : Contours.Rectangle(new Box2(40, 30, 80, 60))
        );
        EdgeFacts facts = Find(part);
        Job thin = MadePart.Job with { TrimTool = MadePart.Job.Tools.Single(t => t.Name == "trim-2mm-up") };
        bool Plans(double left) =>
            TrimPlanner
                .Plan(part, thin with { Rules = thin.Rules with { CornerLeft = left } }, new Kernel(Tolerances.House))
                .Ok;
        Assert.True(Plans(facts.CornerToAllow));
        Assert.False(Plans(facts.CornerToAllow - 0.1));
    }

    [Theory]
    [InlineData(1.5, true, 1)]
    [InlineData(2.6, false, 0)]
    [InlineData(3.0, false, 0)]
    public void Holes_are_asked_about_where_nothing_of_the_rack_makes_them(double diameter, bool asked, int small)
    {
        EdgeFacts facts = Find(MadePart.Plate(Contours.Circle(new Point2(30, 30), diameter / 2)));
        Assert.Equal((asked, small), (facts.AsksHoles, facts.SmallHoles));
        Assert.Equal(asked, facts.AllRound);
    }

    /// <summary>Without the thin trim cutter the rack's plain 2 mm mill cuts them as a second one, which is written and not asked.</summary>
    [Fact]
    public void A_second_cutter_is_no_question()
    {
        Job job = MadePart.Job with { Tools = [.. MadePart.Job.Tools.Where(t => t.Name != "trim-2mm-up")] };
        Part part = MadePart.Plate(
            Contours.Circle(new Point2(30, 30), 1.2),
            Contours.RoundedRectangle(new Box2(50, 70, 62, 72.5), 1.25)
        );
        EdgeFacts facts = Find(part, job);
        Assert.Equal(
            (2, true, false, false),
            (facts.SmallHoles, facts.SecondCutterDoes, facts.AllRound, facts.AsksHoles)
        );
        Assert.Equal(2.4, facts.Narrowest, 1e-6);
    }
}

using FixtureGen.Geometry;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Geometry;

/// <summary>A line of length 10 with three quarters of a circle of radius 3 at its end: the arc crosses the line again at x = 4.</summary>
public sealed class SlicesTest
{
    private static readonly Point2 From = new(0, 0);
    private static readonly Point2 Corner = new(10, 0);
    private static readonly Point2 Again = new(4, 0);

    [Fact]
    public void The_curve_that_follows_cuts_its_neighbour_where_they_cross_again()
    {
        RawCurves raw = new();
        int line = raw.Add(Curve.Line(From, Corner));
        int arc = raw.Add(Curve.Arc(Corner, new Point2(7, -3), new Point2(7, 0), 3, 1));
        raw.Connect(line, arc, Link.Shared);
        Cuts(raw, [line, line, arc, arc]);
    }

    [Fact]
    public void So_does_the_curve_that_leads_to_it()
    {
        RawCurves raw = new();
        int line = raw.Add(Curve.Line(Corner, From));
        int arc = raw.Add(Curve.Arc(new Point2(7, -3), Corner, new Point2(7, 0), 3, -1));
        raw.Connect(arc, line, Link.Shared);
        Cuts(raw, [line, line, arc, arc]);
    }

    [Fact]
    public void Curves_that_only_share_their_end_stay_whole()
    {
        RawCurves raw = new();
        int line = raw.Add(Curve.Line(From, Corner));
        int arc = raw.Add(Curve.Arc(Corner, new Point2(7, 3), new Point2(7, 0), 3, 1));
        raw.Connect(line, arc, Link.Shared);
        Slices slices = new(Slack.From(Tolerances.House));
        slices.Build(raw);
        Assert.Equal([line, arc], slices.Origins);
    }

    private static void Cuts(RawCurves raw, int[] origins)
    {
        Slices slices = new(Slack.From(Tolerances.House));
        slices.Build(raw);
        Assert.Equal(origins, slices.Origins);
        Curve[] pieces = [.. slices.Pieces.Span];
        Assert.Equal(2, pieces.Count(p => p.A.DistanceTo(Again) < 1e-9));
        Assert.Equal(2, pieces.Count(p => p.B.DistanceTo(Again) < 1e-9));
    }
}

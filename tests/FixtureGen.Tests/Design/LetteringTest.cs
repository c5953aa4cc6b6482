using System.Collections.Immutable;
using FixtureGen.Design.Labels;
using FixtureGen.Geometry;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Design;

public sealed class LetteringTest
{
    private const string Asked = "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789.,-_/+():#&'=<>%→↑";

    /// <summary>ISO 3098-0 type B, rows of the published table for h = 2.5, 3.5, 5, 7, 10: stroke d, letter gap a, word gap e, pitch of capitals b3.</summary>
    [Theory]
    [InlineData(2.5, 0.25, 0.5, 1.5, 3.25)]
    [InlineData(3.5, 0.35, 0.7, 2.1, 4.55)]
    [InlineData(5, 0.5, 1, 3, 6.5)]
    [InlineData(7, 0.7, 1.4, 4.2, 9.1)]
    [InlineData(10, 1, 2, 6, 13)]
    public void Proportions_are_those_of_ISO_3098_type_B(double h, double d, double a, double e, double b3)
    {
        Assert.Equal(d, Lettering.StrokeWidth(h), 9);
        Assert.Equal(b3, Lettering.LinePitch(h), 9);
        double letter = Lettering.Width("H", h);
        Assert.Equal(a, Lettering.Width("HH", h) - (2 * letter), 9);
        Assert.Equal(e, Lettering.Width("H H", h) - (2 * letter), 9);
        Assert.Equal(d, Lettering.Width("I", h), 9);
    }

    [Fact]
    public void A_capital_fills_its_height_with_the_stroke_counted_in()
    {
        foreach (char c in Asked[..36])
        {
            Lettered one = Lettering.Strokes(c.ToString(), 10);
            (double lo, double hi) = Extent(one, p => p.Y);
            Assert.Equal(0.5, lo, 3);
            Assert.Equal(9.5, hi, 3);
            (lo, hi) = Extent(one, p => p.X);
            Assert.InRange(lo, 0.499, 0.75);
            Assert.InRange(hi, one.Width - 0.75, one.Width - 0.499);
        }
    }

    [Fact]
    public void Every_usual_sign_has_strokes_and_chains_are_whole()
    {
        foreach (char c in Asked)
        {
            Lettered one = Lettering.Strokes(c.ToString(), 3.5);
            Assert.NotEmpty(one.Strokes);
            foreach (OpenPath path in one.Strokes)
            {
                Assert.All(path.Segments, s => Assert.True(s.Length > 0.01));
                Assert.All(
                    path.Segments.Where(s => s.IsArc),
                    s => Assert.Equal(s.Start.DistanceTo(s.Centre), s.End.DistanceTo(s.Centre), 9)
                );
                Assert.All(path.Segments.Zip(path.Segments.Skip(1)), p => Assert.Equal(p.First.End, p.Second.Start));
            }
        }
    }

    /// <summary>What an engraver sweeps along a letter covers its centre line and no more than its length times the width and the ends.</summary>
    [Fact]
    public void Every_letter_can_be_swept_by_the_engraver()
    {
        Kernel kernel = new(Tolerances.House);
        foreach (OpenPath path in Asked.SelectMany(c => Lettering.Strokes(c.ToString(), 5).Strokes))
        {
            ImmutableArray<Region> swept = kernel.Stroke(path, 0.5);
            double length = Measure.Length(path);
            Assert.InRange(swept.Sum(Measure.Area), 0.75 * length * 0.5, (length * 0.5) + 0.25);
            Assert.All(
                Enumerable.Range(0, 50),
                i => Assert.True(Inside.Contains(swept, Measure.PointAlong(path, length * i / 50)))
            );
        }
    }

    [Fact]
    public void Letters_follow_each_other_without_overlap_and_the_width_is_that_of_the_strokes()
    {
        const string text = "PRUNER-01 REV 2";
        Lettered line = Lettering.Strokes(text, 5);
        Assert.Equal(Lettering.Width(text, 5), line.Width, 9);
        Assert.Equal(line.Width - 0.25, Extent(line, p => p.X).Hi, 3);
    }

    [Fact]
    public void Small_letters_are_cut_as_capitals() =>
        Assert.Equal(Lettering.Strokes("TROWEL", 5).Strokes.Length, Lettering.Strokes("trowel", 5).Strokes.Length);

    [Fact]
    public void A_character_without_a_letter_is_reported_once_with_the_signs_that_exist()
    {
        Lettered line = Lettering.Strokes("A~B~^", 5);
        Assert.Equal(['~', '^'], line.Unknown);
        Finding finding = Assert.IsType<Finding>(Lettering.Check("A~B~^", "label"));
        Assert.Equal("no letter for '~' '^' in \"A~B~^\"", finding.Message);
        Assert.Contains("%", finding.Remedy, StringComparison.Ordinal);
        Assert.Null(Lettering.Check("A B", "label"));
    }

    private static (double Lo, double Hi) Extent(Lettered line, Func<Point2, double> axis)
    {
        double[] at = [.. line.Strokes.SelectMany(p => p.Segments).SelectMany(Sampled).Select(axis)];
        return (at.Min(), at.Max());
    }

    private static IEnumerable<Point2> Sampled(Segment s)
    {
        for (int i = 0; i <= 64; i++)
        {
            double t = i / 64.0;
            if (!s.IsArc)
            {
                yield return s.Start + ((s.End - s.Start) * t);
                continue;
            }
            Point2 r = s.Start - s.Centre;
            double angle = Math.Atan2(r.Y, r.X) + (s.Sweep * t);
            yield return s.Centre + new Point2(s.Radius * Math.Cos(angle), s.Radius * Math.Sin(angle));
        }
    }
}

using CsCheck;
using FixtureGen.Holding.Sliding;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Holding;

/// <summary>A plane of pressure over a contact carries the moment that it is asked for, as far as the contact can.</summary>
public sealed class PressureMeasureTest
{
    private static Point2 Carried(PressureMeasure contact, Point2 slope)
    {
        Point2 sum = default;
        foreach (ContactPiece p in contact.Pieces)
        {
            Point2 d = p.At - contact.Middle;
            sum += p.Share * slope.Dot(d) * d;
        }
        return sum;
    }

    [Fact]
    public void A_plane_over_an_area_carries_any_moment() =>
        Gen.Select(Gen.Double[-50, 50], Gen.Double[-50, 50], Gen.Double[2, 90], Gen.Double[0, 3])
            .Sample(
                (x, y, height, turn) =>
                {
                    Contour bar = Outlines.Polygon([
                        .. new Point2[] { new(-60, 0), new(60, 0), new(60, height), new(-60, height) }.Select(
                            p => new Point2(
                                (p.X * Math.Cos(turn)) - (p.Y * Math.Sin(turn)),
                                (p.X * Math.Sin(turn)) + (p.Y * Math.Cos(turn))
                            )
                        ),
                    ]);
                    PressureMeasure contact = new(ContactQuadrature.OverArea([Region.From(bar)], 80));
                    Point2 moment = new(x, y);
                    return Carried(contact, contact.SlopeFor(moment)).DistanceTo(moment) < 1e-9 * (1 + moment.Length);
                },
                iter: 100
            );

    // A contact along one straight line tips about it at will: only the part of a moment along the line is carried.
    [Theory]
    [InlineData(0)]
    [InlineData(0.4)]
    [InlineData(1.3)]
    [InlineData(2.5)]
    public void A_straight_line_of_contact_carries_what_lies_along_it(double angle)
    {
        Point2 along = new(Math.Cos(angle), Math.Sin(angle));
        PressureMeasure contact = new(
            Enumerable.Range(0, 9).Select(i => new ContactPiece(new Point2(7, -3) + (along * (i * i)), 1 + i, 0))
        );
        Point2 moment = new(11, 5);
        Point2 slope = contact.SlopeFor(moment);
        Assert.Equal(0, Carried(contact, slope).DistanceTo(along * moment.Dot(along)), 1e-9);
        Assert.Equal(0, slope.Cross(along), 1e-9);
    }

    [Fact]
    public void A_single_point_carries_no_moment() =>
        Assert.Equal(default, new PressureMeasure([new ContactPiece(new(3, 4), 2, 0)]).SlopeFor(new(5, 6)));

    [Fact]
    public void Shares_add_up_to_one_and_the_middle_is_theirs()
    {
        PressureMeasure contact = new([new ContactPiece(new(0, 0), 3, 0), new ContactPiece(new(8, 4), 1, 0)]);
        Assert.Equal([0.75, 0.25], contact.Pieces.Select(p => p.Share));
        Assert.Equal(new Point2(2, 1), contact.Middle);
        Assert.Equal((12, 6, 3), (contact.Xx, contact.Xy, contact.Yy));
        Assert.Equal(Math.Sqrt(45), contact.Reach, 12);
        Assert.Throws<ArgumentException>(() => new PressureMeasure([new ContactPiece(default, 0, 0)]));
    }
}

using FixtureGen.Geometry;
using FixtureGen.Holding.Seal;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Holding;

/// <summary>Which zones hold during which cut, on two separate zones with a cutout each that no loop closes off.</summary>
public sealed class SealStatesTest
{
    private static readonly Job Shop = HeldDesigns.Job();

    private static Contour Cutout(double x) => Contours.RoundedRectangle(new Box2(x, 95, x + 20, 120), 5);

    private static (SealStates States, FixtureDesign Design) Of(params double[] cutouts)
    {
        Part part = HeldDesigns.Part(HeldDesigns.Plain.Outer, [.. cutouts.Select(Cutout)]);
        FixtureDesign design = HeldDesigns.Of(part, Shop, looped: false);
        SealedZone whole = design.Zones.Single();
        Kernel kernel = new(Tolerances.House);
        SealedZone Side(int index, Box2 box) =>
            whole with
            {
                Index = index,
                Sealed = kernel.Intersect(whole.Sealed, [Region.From(Contours.Rectangle(box))]),
            };
        design = design with { Zones = [Side(0, new Box2(0, 0, 120, 300)), Side(1, new Box2(130, 0, 300, 300))] };
        return (new SealStates(design, Shop, kernel), design);
    }

    [Fact]
    public void A_zone_is_opened_once_by_the_first_cut_in_it()
    {
        (SealStates states, FixtureDesign design) = Of(70, 155, 180.5);
        string[] names = [.. design.TrimCuts.Select(c => c.Name)];
        int[] zoneOf =
        [
            .. design.TrimCuts.Select(c =>
                c.Kind == TrimKind.Cutout ? (Measure.Bounds(c.Edge).Middle.X < 125 ? 0 : 1) : -1
            ),
        ];
        (string, int)[] first =
        [
            .. new[] { 0, 1 }
                .Select(z => (At: Array.IndexOf(zoneOf, z), z))
                .OrderBy(f => f.At)
                .Select(f => (names[f.At], f.z)),
        ];

        Assert.Equal(first, states.Opened);
        Assert.Equal(3, states.Count);
    }

    [Fact]
    public void Each_cut_is_made_under_the_zones_that_still_hold()
    {
        (SealStates states, FixtureDesign design) = Of(70, 155);
        double[] area = [.. design.Zones.Select(z => Measure.Area(z.Sealed))];
        bool[] holds = [true, true];
        for (int i = 0; i < design.TrimCuts.Length; i++)
        {
            TrimCut cut = design.TrimCuts[i];
            if (cut.Kind == TrimKind.Cutout)
            {
                holds[Measure.Bounds(cut.Edge).Middle.X < 125 ? 0 : 1] = false;
            }
            double sum = (holds[0] ? area[0] : 0) + (holds[1] ? area[1] : 0);
            Assert.Equal(50 * sum / 1000, states.Gross(states.During(i), 50).Force, 1e-9);
        }
        Assert.Equal([false, false], holds);
        Assert.Equal(50 * area.Sum() / 1000, states.Gross(SealStates.Whole, 50).Force, 1e-9);
    }

    // The gap between the zones is as far from either side of the part.
    [Fact]
    public void The_vacuum_acts_at_the_middle_of_what_it_is_under()
    {
        (SealStates states, FixtureDesign design) = Of();
        Pressing both = states.Gross(SealStates.Whole, 50);
        Point2 middle = both.First * (1 / both.Force);
        Assert.Equal(Measure.Bounds(design.Part.Outer).Middle.Y, middle.Y, 1e-6);
        Assert.Equal(Measure.Bounds(design.Part.Outer).Middle.X, middle.X, 1e-6);
    }

    [Theory]
    [InlineData(12, 0, true)]
    [InlineData(12.1, 0, false)]
    [InlineData(-12, 0, true)]
    [InlineData(-12.1, 0, false)]
    [InlineData(0, 7, true)]
    [InlineData(0, 7.1, false)]
    [InlineData(0, -7, true)]
    [InlineData(0, -7.1, false)]
    [InlineData(12, -7, true)]
    public void Boxes_overlap_until_a_side_parts_them(double x, double y, bool overlap)
    {
        Box2 box = new(-4, -2, 4, 2);
        Box2 other = new(x - 8, y - 5, x + 8, y + 5);
        Assert.Equal(overlap, SealStates.Overlap(box, other));
        Assert.Equal(overlap, SealStates.Overlap(other, box));
    }
}

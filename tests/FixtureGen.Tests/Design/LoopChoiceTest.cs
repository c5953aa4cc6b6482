using System.Collections.Immutable;
using FixtureGen.Design.Seals;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Design;

/// <summary>
/// What one cutout has no room for takes nothing from the others. Laws of the sealed area, on parts in their own frame with
/// reliefs of the side clearance alone.
/// </summary>
public sealed class LoopChoiceTest
{
    private static readonly Job Job = DesignBench.Job;

    private const int Seeds = 40;

    private static readonly (int Seed, int Cutout)[] KnownWorse = [(1, 2), (15, 0), (15, 6), (34, 6)];

    private readonly Kernel _kernel = new(Tolerances.House);

    /// <summary>
    /// Six holes that all stand far enough from each other and from the edge; the net cannot pass between one of them and
    /// the edge from R 8.75 on. A wider gap asked of all six once took every loop: 149 cm2 became 107.
    /// </summary>
    [Fact]
    [Trait("Speed", "Slow")]
    public void Holes_that_grow_a_little_all_keep_their_loops()
    {
        double last = double.MaxValue;
        for (double radius = 6; radius < 9.01; radius += 0.05)
        {
            ImmutableArray<Region> zones = Find(SixHoles(radius)).Value;
            double area = Sealed(zones);
            double rings = 6 * Math.PI * (Math.Pow(OwnRadius(radius), 2) - Math.Pow(OwnRadius(radius - 0.05), 2));
            Assert.Equal(7, zones.Sum(z => z.Contours.Count()));
            Assert.InRange(last == double.MaxValue ? 0 : last - area, -0.01, rings + 0.01);
            last = area;
        }
    }

    /// <summary>Two holes a quarter millimetre too near to the edge: the note says so, and the four others keep their loops.</summary>
    [Fact]
    public void Two_holes_too_near_to_the_edge_take_nothing_from_the_others()
    {
        double needed = (2 * DesignBench.Keep(Job)) + Job.Rules.Land + Job.Gasket.GrooveWidth;
        double y = 8 + needed + (2 * Job.Rules.SideClearance) - 0.25;
        Part part = SixHoles(8, new Point2(97.5, y), new Point2(97.5, 126 - y));

        Stage<ImmutableArray<Region>> stage = Find(part);

        Assert.Equal(5, stage.Value.Sum(z => z.Contours.Count()));
        Finding[] notes = [.. stage.Findings.Where(f => f.Code == "cutout-joined-outside")];
        Assert.Equal(2, notes.Length);
        Assert.Equal(
            "a loop of its own, bent at a radius of 11.58 mm or more, is 0.25 mm short of a land beside the next loop: the outer groove passes on the cutout's inner side and its slug lies outside the seal",
            notes[0].Message
        );
    }

    /// <summary>
    /// A cutout that grows by 0.05 mm costs no more than what lies within two bend radii of its own loop: its loop, the ring that
    /// it sealed about the cutout, and the cord's bends beside it.
    /// </summary>
    [Fact]
    [Trait("Speed", "Slow")]
    public void One_cutout_that_grows_costs_no_more_than_its_own_surroundings()
    {
        for (int seed = 0; seed < LongRun.Cases(Seeds / 2); seed++)
        {
            Part part = RandomParts.Holed(new Random(7000 + seed));
            double all = Sealed(Find(part).Value);
            for (int i = 0; i < part.Cutouts.Length; i++)
            {
                Region cutout = Region.From(Contours.Ccw(part.Cutouts[i]));
                Contour grown = Contours.Cw(_kernel.Offset(cutout, 0.05)[0].Outer);
                double after = Sealed(Find(part with { Cutouts = part.Cutouts.SetItem(i, grown) }).Value);
                double around = Measure.Area(
                    _kernel.Offset(cutout, DesignBench.Keep(Job) + (2 * DesignBench.BendRadius(Job)))
                );
                Assert.True(
                    all - after <= around,
                    FormattableString.Invariant($"seed {seed}, cutout {i}: {all:0.0} to {after:0.0}")
                );
            }
        }
    }

    /// <summary>
    /// A part with a cutout less is sealed no worse. The exceptions are known, and their list may only shrink: in rooms full of
    /// cutouts the bends are found step by step, and other steps lead to other zones.
    /// </summary>
    [Fact]
    [Trait("Speed", "Slow")]
    public void A_cutout_less_costs_nothing()
    {
        List<(int, int)> worse = [];
        for (int seed = 0; seed < Seeds; seed++)
        {
            Part part = RandomParts.Holed(new Random(7000 + seed));
            double all = Sealed(Find(part).Value);
            for (int i = 0; i < part.Cutouts.Length; i++)
            {
                if (Sealed(Find(part with { Cutouts = part.Cutouts.RemoveAt(i) }).Value) < all - 1)
                {
                    worse.Add((seed, i));
                }
            }
        }
        Assert.Equal(KnownWorse, worse);
    }

    private static Part SixHoles(double radius, params Point2[] middle)
    {
        Point2[] at =
        [
            new(35.2, 35.3),
            new(159.8, 35.3),
            new(35.2, 90.7),
            new(159.8, 90.7),
            .. middle.Length > 0 ? middle : [new(97.5, 35.3), new(97.5, 90.7)],
        ];
        return DesignBench.Rectangle(195, 126, 12, [.. at.Select(p => Contours.Circle(p, radius))]);
    }

    /// <summary>Of the groove's outer wall round a hole, mm.</summary>
    private static double OwnRadius(double hole) =>
        Math.Max(DesignBench.BendRadius(Job), hole + Job.Rules.SideClearance + DesignBench.Keep(Job))
        + (Job.Gasket.GrooveWidth / 2);

    private double Sealed(ImmutableArray<Region> zones) =>
        zones.IsDefault ? 0 : zones.Sum(z => Measure.Area(_kernel.Offset(z, -Job.Gasket.GrooveWidth / 2)));

    private Stage<ImmutableArray<Region>> Find(Part part)
    {
        Region outer = Region.From(part.Outer);
        double side = Job.Rules.SideClearance;
        Region[] given =
        [
            .. _kernel.Difference(_kernel.Offset(outer, 10), _kernel.Offset(outer, -side)),
            .. part.Cutouts.SelectMany(c => _kernel.Offset(Region.From(Contours.Ccw(c)), side)),
        ];
        return Zones.Find(part, given, Job, new Kernel(Tolerances.House));
    }
}

using System.Collections.Immutable;
using FixtureGen.Design;
using FixtureGen.Design.Vacuum;
using FixtureGen.Geometry;
using FixtureGen.Holding;
using FixtureGen.Model;
using FixtureGen.Solve;
using FixtureGen.Tests.Design;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Holding;

/// <summary>Magnets that the program places leave the vacuum's net as it is without them, or a finding says what they cost.</summary>
public sealed class NetOfPlacedMagnetsTest
{
    /// <summary>
    /// One to ten magnets in random parts. The oracle knows nothing of rooms and passages: what lies beyond the reach of the
    /// finished net, against the net without magnets. A fifth of such designs once had their net cut.
    /// </summary>
    [Fact]
    [Trait("Speed", "Slow")]
    public void Placed_magnets_leave_no_point_beyond_reach_that_was_within()
    {
        int made = 0;
        for (int seed = 0; seed < LongRun.Cases(40); seed++)
        {
            Job job = DesignBench.Job with { MagnetCount = 1 + (seed % 10) };
            Part part = RandomParts.Holed(new Random(30_000 + seed));
            Stage<Placement> placed = Placing.Place(part, job, Tolerances.House);
            if (!placed.Ok || Designer.Begin(part, placed.Value!, job, Tolerances.House).Value is not { } begun)
            {
                continue;
            }
            ImmutableArray<MagnetPlace> magnets = MagnetPlacement.Choose(begun, job, Tolerances.House).Value;
            if (magnets.IsDefaultOrEmpty)
            {
                continue;
            }
            double without = Beyond(DesignBench.Value(Designer.Finish(begun, [], job, Tolerances.House)), job);
            Stage<FixtureDesign> finished = Designer.Finish(begun, magnets, job, Tolerances.House);
            FixtureDesign design = DesignBench.Value(finished);
            double with = Beyond(design, job);
            bool said = finished.Findings.Any(f => f.Code is "net-reach" or "net-cut-by-magnets");
            Assert.True(with <= without + 1 || said, FormattableString.Invariant($"seed {seed}: {without} to {with}"));
            Assert.DoesNotContain(finished.Findings, f => f.Code == "net-cut-by-magnets");
            double counted = design.Zones.Sum(z => Measure.Area(z.Reached));
            double all = design.Zones.Sum(z => Measure.Area(z.Sealed));
            Assert.InRange(counted, 0, all - with + ReachedArea.Rounding);
            made++;
        }
        Assert.InRange(made, 25, int.MaxValue);
    }

    /// <summary>A wish that cuts the net stays, and the magnets placed beside it take nothing more.</summary>
    [Fact]
    [Trait("Speed", "Slow")]
    public void Beside_wishes_that_cut_the_net_the_others_still_leave_what_is_left_of_it()
    {
        FixtureDesign bare = DesignBench.Begun(DesignBench.Rectangle(190, 46, 12));
        Box2 box = Measure.Bounds(bare.Zones[0].Boundary);
        Pose back = Transform.Inverse(bare.Placement.Pose);
        Point2 wish = new(box.MinX + 60, box.Middle.Y);
        Job job = DesignBench.Job with
        {
            MagnetCount = 4,
            Magnets = [new MagnetWish(Transform.Apply(back, wish), true)],
        };
        FixtureDesign begun = DesignBench.Value(
            Designer.Begin(DesignBench.Rectangle(190, 46, 12), bare.Placement, job, Tolerances.House)
        );
        ImmutableArray<MagnetPlace> magnets = DesignBench.Value(MagnetPlacement.Choose(begun, job, Tolerances.House));
        double wished = Beyond(DesignBench.Value(Designer.Finish(begun, [magnets[0]], job, Tolerances.House)), job);
        double all = Beyond(DesignBench.Value(Designer.Finish(begun, magnets, job, Tolerances.House)), job);
        Assert.Equal(4, magnets.Length);
        Assert.InRange(all, 0, wished + 1);
    }

    /// <summary>The vacuum pulls on the reached area alone, and a context taken from one with another net knows it.</summary>
    [Fact]
    public void Only_the_reached_area_pulls()
    {
        Job job = HeldDesigns.Job();
        FixtureDesign whole = HeldDesigns.Of(HeldDesigns.Plain, job);
        SealedZone zone = whole.Zones[0];
        Box2 box = Measure.Bounds(zone.Sealed);
        Region left = Region.From(Contours.Rectangle(box with { MaxX = box.Middle.X }));
        FixtureDesign half = whole with
        {
            Zones = [zone with { Reached = new Kernel(Tolerances.House).Intersect(zone.Sealed, [left]) }],
        };
        HoldingContext all = new(whole, job, Tolerances.House);
        HoldingContext cut = new(half, job, Tolerances.House);
        HoldingContext like = new(half, job, Tolerances.House, all);
        Assert.Equal(all.GrossForceN / 2, cut.GrossForceN, 1e-6 * all.GrossForceN);
        Assert.Equal(cut.GrossForceN, like.GrossForceN, 1e-9);
        Assert.Equal(cut.Evaluate([]).VacuumOnly.Factor, like.Evaluate([]).VacuumOnly.Factor, 1e-9);
        Assert.True(cut.Evaluate([]).VacuumOnly.Factor < all.Evaluate([]).VacuumOnly.Factor);
    }

    /// <summary>Sealed area farther than the reach from the net as it is cut, mm2.</summary>
    private static double Beyond(FixtureDesign design, Job job)
    {
        Kernel kernel = new(Tolerances.House);
        Region[] net = [.. DesignBench.All<GrooveFeature>(design, FeatureKind.Net).SelectMany(g => g.Removals[0].Area)];
        ImmutableArray<Region> near = kernel.Offset(net, job.Rules.NetReach);
        return design.Zones.Sum(z => Measure.Area(kernel.Difference(z.Sealed, near)));
    }
}

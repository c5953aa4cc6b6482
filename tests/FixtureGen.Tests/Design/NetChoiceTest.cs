using System.Collections.Immutable;
using FixtureGen.Design.Seals;
using FixtureGen.Design.Vacuum;
using FixtureGen.Geometry;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Design;

[Trait("Speed", "Slow")]
public sealed class NetChoiceTest
{
    /// <summary>Ways that are left out change nothing: against all ways laid one after the other, in zones cut by rows of pockets.</summary>
    [Fact]
    public void The_same_way_is_taken_as_when_all_are_laid_in_order()
    {
        Random random = new(26);
        Job job = DesignBench.Job;
        Tool cutter = NetWidth.Choose(job)!;
        int inPieces = 0;
        for (int i = 0; i < 60; i++)
        {
            double height = 40 + (30 * random.NextDouble());
            Region boundary = Region.From(Contours.Rectangle(new Box2(0, 0, 120 + (60 * random.NextDouble()), height)));
            double column = 60 + (30 * random.NextDouble());
            double radius = 5 + (3 * random.NextDouble());
            double step = (2 * radius) + (8 * random.NextDouble());
            Region[] pockets =
            [
                .. Enumerable
                    .Range(0, (int)(height / step) + 1)
                    .Select(k => Region.From(Contours.Circle(new(column + random.NextDouble(), k * step), radius))),
            ];
            SealedZone zone = new(
                0,
                boundary,
                [boundary],
                new(10 + (40 * random.NextDouble()), height * (0.3 + (0.4 * random.NextDouble()))),
                "port"
            );
            Kernel kernel = new(Tolerances.House);
            NetChoice.Laying? expected = InOrder(zone, pockets, cutter, job, kernel);
            NetChoice.Laying? taken = new NetChoice(zone, pockets, cutter, job, kernel).Best();
            Assert.Equal(expected?.FromPockets, taken?.FromPockets);
            Assert.Equal(expected?.Lines.Farthest, taken?.Lines.Farthest);
            Assert.Equal(Segments(expected), Segments(taken));
            inPieces +=
                expected is { Room.Length: > 1 } && expected.Lines.Farthest.Distance > job.Rules.NetReach ? 1 : 0;
        }
        Assert.InRange(inPieces, 5, 55);
    }

    private static Segment[] Segments(NetChoice.Laying? laying) =>
        [.. (laying?.Lines.Runs ?? []).SelectMany(r => r.Segments)];

    private static NetChoice.Laying? InOrder(SealedZone zone, Region[] pockets, Tool cutter, Job job, Kernel kernel)
    {
        NetChoice.Laying? best = null;
        foreach (bool allAlong in (bool[])[false, true])
        {
            foreach (double distance in (double[])[job.Rules.Land, job.Rules.Wall])
            {
                ImmutableArray<Region> room = kernel.Difference(
                    kernel.Offset([zone.Boundary], -(Zones.Keep(job) + cutter.Radius)),
                    kernel.Offset(pockets, distance + cutter.Radius)
                );
                NetLines lines = new([.. NetLines.Samples(zone)], zone.Hollows, [], cutter.Radius, kernel);
                if (
                    room.FirstOrDefault(r => Inside.Contains(r, zone.PortAt)) is { } own
                    && lines.Lay(
                        zone.PortAt,
                        own,
                        NetChoice.Ring(zone.PortAt, own, allAlong, cutter, job, kernel),
                        job.Rules.NetReach
                    )
                    && (best is null || lines.Farthest.Distance < best.Lines.Farthest.Distance - 0.1)
                )
                {
                    best = new NetChoice.Laying(lines, room, distance);
                }
                if (best?.Lines.Farthest.Distance <= job.Rules.NetReach)
                {
                    return best;
                }
            }
        }
        return best;
    }
}

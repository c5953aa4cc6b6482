using System.Collections.Immutable;
using FixtureGen.Design.Block;
using FixtureGen.Design.Forms;
using FixtureGen.Design.Vacuum;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Solve;

/// <summary>Whether magnets take anything from what the vacuum's net reaches, by the net that the design lays round them.</summary>
internal sealed class NetTrial
{
    private readonly FixtureDesign _begun;
    private readonly Job _job;
    private readonly Kernel _kernel;
    private readonly Levels _levels;
    private readonly double[] _before;

    /// <param name="held">Magnets that stand whatever they do to the net.</param>
    public NetTrial(FixtureDesign begun, Job job, Kernel kernel, IReadOnlyList<Point2> held)
    {
        _begun = begun;
        _job = job;
        _kernel = kernel;
        _levels = Levels.From(job);
        _before = Reached(held);
    }

    public bool Leaves(IReadOnlyList<Point2> magnets) =>
        Reached(magnets).Zip(_before, (now, then) => now > then - ReachedArea.Rounding).All(kept => kept);

    /// <summary>Area, mm2, zone by zone; none of a zone whose port is blocked.</summary>
    private double[] Reached(IReadOnlyList<Point2> magnets)
    {
        ImmutableArray<MagnetPlace> places = [.. magnets.Select(m => new MagnetPlace(m, false, false))];
        ImmutableArray<Region> pockets = _kernel.UnionAll([.. MagnetPockets.Outset(places, _begun, 0, _job)]);
        ImmutableArray<Net.Laid> laid = Net.Lay(_begun.Zones, pockets, _levels, _job, _kernel).Value;
        return
        [
            .. _begun.Zones.Select(z =>
                laid.IsDefault ? 0 : laid.Where(n => n.Zone.Index == z.Index).Sum(n => Measure.Area(n.Zone.Reached))
            ),
        ];
    }
}

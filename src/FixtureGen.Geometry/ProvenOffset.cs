using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// Runs the offset until a result proves itself: plainly, then with the side test, then a hair nearer or farther, at last on
/// chords. All but the first is noted.
/// </summary>
internal sealed class ProvenOffset(Slack slack, List<KernelRepair> repairs, bool distrust)
{
    // How much the distance is changed to get clear of exact coincidences, mm.
    private static readonly double[] Shifts = [0, 1e-5, -1e-5, 1e-4, -1e-4, 2.7e-4, -2.3e-4];

    private readonly Offsetter offsetter = new(slack);
    private readonly SelfCheck check = new(slack);
    private readonly LoopNesting nesting = new(slack.Grid);

    /// <summary>The parallel at <paramref name="distance"/> mm to the source's left; distance &gt; 0.</summary>
    /// <param name="onChords">The same work done by the polygon library.</param>
    public ImmutableArray<Region> Of(
        OffsetSource source,
        double distance,
        string operation,
        Func<double, ImmutableArray<Region>> onChords
    )
    {
        if (source.Dropped > 0)
        {
            repairs.Add(new(RepairKind.MicroEdges, operation, source.Dropped));
        }
        if (source.Count == 0)
        {
            return [];
        }
        foreach (double shift in distrust ? [] : Shifts)
        {
            if (distance + shift <= slack.Grid)
            {
                continue;
            }
            if (Try(source, distance + shift, sideTest: false) is { } plain)
            {
                Note(shift, sideTest: false, operation);
                return plain;
            }
            if (Try(source, distance + shift, sideTest: true) is { } sided)
            {
                Note(shift, sideTest: true, operation);
                return sided;
            }
        }
        return OnChords(source, distance, operation, onChords);
    }

    private ImmutableArray<Region>? Try(OffsetSource source, double distance, bool sideTest)
    {
        List<Loop> loops = offsetter.Run(source, distance, sideTest);
        return offsetter.Closed && check.Proves(source, distance, loops) ? nesting.Regions(loops) : null;
    }

    private void Note(double shift, bool sideTest, string operation)
    {
        if (shift != 0)
        {
            repairs.Add(new(RepairKind.Perturbed, operation, shift));
        }
        else if (sideTest)
        {
            repairs.Add(new(RepairKind.SideTest, operation, 0));
        }
    }

    private ImmutableArray<Region> OnChords(
        OffsetSource source,
        double distance,
        string operation,
        Func<double, ImmutableArray<Region>> onChords
    )
    {
        ImmutableArray<Region> regions = onChords(distance);
        double error = NtsFallBack.Error(distance);
        var loose = new SelfCheck(slack with { Slice = error / 4, Stub = Math.Max(slack.Stub, 100 * error) });
        if (!loose.Proves(source, distance, Loop.Of(regions)))
        {
            throw new KernelException(FormattableString.Invariant($"no {operation} by {distance} mm could be proven"));
        }
        repairs.Add(new(RepairKind.FallBack, operation, error));
        return regions;
    }
}

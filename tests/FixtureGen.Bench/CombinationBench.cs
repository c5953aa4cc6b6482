using System.Collections.Immutable;
using BenchmarkDotNet.Attributes;
using FixtureGen.Geometry;
using FixtureGen.Model;
using NetTopologySuite.Operation.OverlayNG;
using NetTopologySuite.Operation.Union;
using NtsGeometry = NetTopologySuite.Geometries.Geometry;

namespace FixtureGen.Bench;

/// <summary>Two shapes combined, the library on chords within 0.005 mm; both proven, or robust, as they come.</summary>
[Config(typeof(OffsetConfig))]
public class CombinationBench
{
    private readonly Kernel kernel = new(Tolerances.House);
    private (Region[] A, Region[] B) pair;
    private NtsGeometry a = null!;
    private NtsGeometry b = null!;

    [Params("two waves of 5000", "twelve holes", "rack of 10000 upright", "rack of 10000 turned")]
    public string Shapes { get; set; } = "";

    [GlobalSetup]
    public void Setup()
    {
        pair = BenchShapes.Pair(Shapes);
        a = NtsOffset.Flat(pair.A);
        b = NtsOffset.Flat(pair.B);
    }

    [Benchmark(Baseline = true)]
    public ImmutableArray<Region> Union() => kernel.Union(pair.A, pair.B);

    [Benchmark]
    public ImmutableArray<Region> Difference() => kernel.Difference(pair.A, pair.B);

    [Benchmark]
    public object NtsUnion() => OverlayNGRobust.Overlay(a, b, OverlayNG.UNION);

    [Benchmark]
    public object NtsDifference() => OverlayNGRobust.Overlay(a, b, OverlayNG.DIFFERENCE);
}

/// <summary>Many regions united at once; the library unites its chords in a cascade.</summary>
[Config(typeof(OffsetConfig))]
public class ManyUnionBench
{
    private readonly Kernel kernel = new(Tolerances.House);
    private Region[] regions = [];
    private NtsGeometry[] flat = [];

    [Params("1000 discs", "3000 discs", "10000 discs", "200 strokes")]
    public string Regions { get; set; } = "";

    [GlobalSetup]
    public void Setup()
    {
        regions = BenchShapes.Many(Regions, kernel);
        flat = [.. regions.Select(r => NtsOffset.Flat([r]).GetGeometryN(0))];
    }

    [Benchmark(Baseline = true)]
    public ImmutableArray<Region> Exact() => kernel.UnionAll(regions);

    [Benchmark]
    public object Nts() => UnaryUnionOp.Union(flat);
}

/// <summary>What proving costs: the same work with and without, in one run; the proof's share is the difference.</summary>
[Config(typeof(OffsetConfig))]
public class ProofBench
{
    private static readonly Slack House = Slack.From(Tolerances.House);
    private readonly Overlay overlay = new(House);
    private readonly CombinationProof combinationProof = new(House);
    private readonly Offsetter offsetter = new(House);
    private readonly OffsetProof offsetProof = new(House);
    private readonly OffsetSource source = new(House);
    private (Region[] A, Region[] B) pair;
    private Region[] single = [];

    [Params("wiggle 3000", "wiggle 300", "twelve holes", "wiggle with islands")]
    public string Shape { get; set; } = "";

    [GlobalSetup]
    public void Setup()
    {
        pair = BenchShapes.Pair(Shape == "twelve holes" ? Shape : "two waves of 5000");
        single = BenchShapes.Named(Shape);
    }

    [Benchmark(Baseline = true)]
    public int Combination() => Combine(prove: false);

    [Benchmark]
    public int CombinationProven() => Combine(prove: true);

    [Benchmark]
    public int Offset() => Shrink(prove: false);

    [Benchmark]
    public int OffsetProven() => Shrink(prove: true);

    private int Combine(bool prove)
    {
        List<Loop> loops = overlay.Run(pair.A, pair.B, Both, 1)!;
        return prove && !combinationProof.Proves(overlay, Both, loops) ? -1 : loops.Count;
    }

    private static bool Both(int a, int b) => a > 0 || b > 0;

    private int Shrink(bool prove)
    {
        source.Begin(reversed: false);
        source.AddAll(single);
        source.End();
        List<Loop> loops = offsetter.Run(source, 3.175, OffsetWay.Plain)!;
        return prove && !offsetProof.Proves(offsetter, source, 3.175, loops) ? -1 : loops.Count;
    }
}

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
    private readonly Kernel _kernel = new(Tolerances.House);
    private (Region[] A, Region[] B) _pair;
    private NtsGeometry _a = null!;
    private NtsGeometry _b = null!;

    [Params("two waves of 5000", "twelve holes", "rack of 10000 upright", "rack of 10000 turned")]
    public string Shapes { get; set; } = "";

    [GlobalSetup]
    public void Setup()
    {
        _pair = BenchShapes.Pair(Shapes);
        _a = NtsOffset.Flat(_pair.A);
        _b = NtsOffset.Flat(_pair.B);
    }

    [Benchmark(Baseline = true)]
    public ImmutableArray<Region> Union() => _kernel.Union(_pair.A, _pair.B);

    [Benchmark]
    public ImmutableArray<Region> Difference() => _kernel.Difference(_pair.A, _pair.B);

    [Benchmark]
    public object NtsUnion() => OverlayNGRobust.Overlay(_a, _b, OverlayNG.UNION);

    [Benchmark]
    public object NtsDifference() => OverlayNGRobust.Overlay(_a, _b, OverlayNG.DIFFERENCE);
}

/// <summary>Many regions united at once; the library unites its chords in a cascade.</summary>
[Config(typeof(OffsetConfig))]
public class ManyUnionBench
{
    private readonly Kernel _kernel = new(Tolerances.House);
    private Region[] _regions = [];
    private NtsGeometry[] _flat = [];

    [Params("1000 discs", "3000 discs", "10000 discs", "200 strokes")]
    public string Regions { get; set; } = "";

    [GlobalSetup]
    public void Setup()
    {
        _regions = BenchShapes.Many(Regions, _kernel);
        _flat = [.. _regions.Select(r => NtsOffset.Flat([r]).GetGeometryN(0))];
    }

    [Benchmark(Baseline = true)]
    public ImmutableArray<Region> Exact() => _kernel.UnionAll(_regions);

    [Benchmark]
    public object Nts() => UnaryUnionOp.Union(_flat);
}

/// <summary>What proving costs: the same work with and without, in one run; the proof's share is the difference.</summary>
[Config(typeof(OffsetConfig))]
public class ProofBench
{
    private static readonly Slack House = Slack.From(Tolerances.House);
    private readonly Overlay _overlay = new(House);
    private readonly CombinationProof _combinationProof = new(House);
    private readonly Offsetter _offsetter = new(House);
    private readonly OffsetProof _offsetProof = new(House);
    private readonly OffsetSource _source = new(House);
    private (Region[] A, Region[] B) _pair;
    private Region[] _single = [];

    [Params("wiggle 3000", "wiggle 300", "twelve holes", "wiggle with islands")]
    public string Shape { get; set; } = "";

    [GlobalSetup]
    public void Setup()
    {
        _pair = BenchShapes.Pair(Shape == "twelve holes" ? Shape : "two waves of 5000");
        _single = BenchShapes.Named(Shape);
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
        List<Loop> loops = _overlay.Run(_pair.A, _pair.B, Both, 1)!;
        return prove && !_combinationProof.Proves(_overlay, Both, loops) ? -1 : loops.Count;
    }

    private static bool Both(int a, int b) => a > 0 || b > 0;

    private int Shrink(bool prove)
    {
        _source.Begin(reversed: false);
        _source.AddAll(_single);
        _source.End();
        List<Loop> loops = _offsetter.Run(_source, 3.175, OffsetWay.Plain)!;
        return prove && !_offsetProof.Proves(_offsetter, _source, 3.175, loops) ? -1 : loops.Count;
    }
}

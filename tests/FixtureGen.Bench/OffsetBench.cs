using System.Collections.Immutable;
using BenchmarkDotNet.Attributes;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Bench;

/// <summary>One offset by 3.175 mm outwards and inwards; input ready on both sides, both within 0.005 mm.</summary>
[Config(typeof(OffsetConfig))]
public class OffsetBench
{
    private readonly Kernel _kernel = new(Tolerances.House);
    private Region[] _regions = [];
    private NetTopologySuite.Geometries.Geometry _flat = null!;

    [Params("rounded rectangle", "twelve holes", "wiggle 300", "wiggle 3000", "wiggle with islands")]
    public string Shape { get; set; } = "";

    [Params(3.175, -3.175)]
    public double Distance { get; set; }

    [GlobalSetup]
    public void Setup()
    {
        _regions = BenchShapes.Named(Shape);
        _flat = NtsOffset.Flat(_regions);
    }

    [Benchmark(Baseline = true)]
    public ImmutableArray<Region> Exact() => _kernel.Offset(_regions, Distance);

    [Benchmark]
    public object Nts() => NtsOffset.Buffer(_flat, Distance);
}

/// <summary>
/// Contour-parallel clearing with a cutter of 6.35 mm at 40 % step-over, every ring from the source. The library is measured
/// the same way and, as the harder baseline, with each ring from the one before.
/// </summary>
[Config(typeof(OffsetConfig))]
public class OffsetClearingBench
{
    private const double First = 3.175;
    private const double Step = 2.54;

    // The tolerance of the recovery that comes first for the dense wiggle, mm.
    private const double Recovery = 0.002;

    private readonly Kernel _kernel = new(Tolerances.House);
    private Region[] _regions = [];
    private NetTopologySuite.Geometries.Geometry _flat = null!;
    private bool _recovers;

    [Params("rounded rectangle", "twelve holes", "wiggle 300", "wiggle 3000 recovered", "wiggle with islands")]
    public string Shape { get; set; } = "";

    [GlobalSetup]
    public void Setup()
    {
        _recovers = Shape.EndsWith(" recovered", StringComparison.Ordinal);
        _regions = BenchShapes.Named(Shape.Replace(" recovered", "", StringComparison.Ordinal));
        _flat = NtsOffset.Flat(_regions);
    }

    [Benchmark(Baseline = true)]
    public int Exact() => _kernel.Rings(_recovers ? [.. _regions.Select(Recovered)] : _regions, First, Step).Length;

    [Benchmark]
    public int NtsFromSource() => NtsOffset.RingsFromSource(_flat, First, Step);

    [Benchmark]
    public int NtsChained() => NtsOffset.RingsChained(_flat, First, Step);

    private static Region Recovered(Region r) => Region.From(ArcRecovery.Recover(r.Outer, Recovery));
}

/// <summary>Inwards by 3.175 mm. Ten times the segments may cost at most fifteen times the time, and 0.7 of the library's from 10,000 on.</summary>
[Config(typeof(OffsetConfig))]
public class OffsetGrowthBench
{
    private readonly Kernel _kernel = new(Tolerances.House);
    private Region[] _regions = [];
    private NetTopologySuite.Geometries.Geometry _flat = null!;

    [Params(1_000, 10_000, 100_000)]
    public int Segments { get; set; }

    [GlobalSetup]
    public void Setup()
    {
        _regions = BenchShapes.Wiggle(Segments);
        _flat = NtsOffset.Flat(_regions);
    }

    [Benchmark(Baseline = true)]
    public ImmutableArray<Region> Exact() => _kernel.Offset(_regions, -3.175);

    [Benchmark]
    public object Nts() => NtsOffset.Buffer(_flat, -3.175);
}

using System.Collections.Immutable;
using BenchmarkDotNet.Attributes;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Bench;

/// <summary>One offset by 3.175 mm outwards and inwards; input ready on both sides, both within 0.005 mm.</summary>
[Config(typeof(OffsetConfig))]
public class OffsetBench
{
    private readonly Kernel kernel = new(Tolerances.House);
    private Region[] regions = [];
    private NetTopologySuite.Geometries.Geometry flat = null!;

    [Params("rounded rectangle", "twelve holes", "wiggle 300", "wiggle 3000", "wiggle with islands")]
    public string Shape { get; set; } = "";

    [Params(3.175, -3.175)]
    public double Distance { get; set; }

    [GlobalSetup]
    public void Setup()
    {
        regions = BenchShapes.Named(Shape);
        flat = NtsOffset.Flat(regions);
    }

    [Benchmark(Baseline = true)]
    public ImmutableArray<Region> Exact() => kernel.Offset(regions, Distance);

    [Benchmark]
    public object Nts() => NtsOffset.Buffer(flat, Distance);
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

    private readonly Kernel kernel = new(Tolerances.House);
    private Region[] regions = [];
    private NetTopologySuite.Geometries.Geometry flat = null!;
    private bool recovers;

    [Params("rounded rectangle", "twelve holes", "wiggle 300", "wiggle 3000 recovered", "wiggle with islands")]
    public string Shape { get; set; } = "";

    [GlobalSetup]
    public void Setup()
    {
        recovers = Shape.EndsWith(" recovered", StringComparison.Ordinal);
        regions = BenchShapes.Named(Shape.Replace(" recovered", "", StringComparison.Ordinal));
        flat = NtsOffset.Flat(regions);
    }

    [Benchmark(Baseline = true)]
    public int Exact() => kernel.Rings(recovers ? [.. regions.Select(Recovered)] : regions, First, Step).Length;

    [Benchmark]
    public int NtsFromSource() => NtsOffset.RingsFromSource(flat, First, Step);

    [Benchmark]
    public int NtsChained() => NtsOffset.RingsChained(flat, First, Step);

    private static Region Recovered(Region r) => Region.Of(ArcRecovery.Recover(r.Outer, Recovery));
}

/// <summary>Inwards by 3.175 mm. Ten times the segments may cost at most fifteen times the time, and 0.7 of the library's from 10,000 on.</summary>
[Config(typeof(OffsetConfig))]
public class OffsetGrowthBench
{
    private readonly Kernel kernel = new(Tolerances.House);
    private Region[] regions = [];
    private NetTopologySuite.Geometries.Geometry flat = null!;

    [Params(1_000, 10_000, 100_000)]
    public int Segments { get; set; }

    [GlobalSetup]
    public void Setup()
    {
        regions = BenchShapes.Wiggle(Segments);
        flat = NtsOffset.Flat(regions);
    }

    [Benchmark(Baseline = true)]
    public ImmutableArray<Region> Exact() => kernel.Offset(regions, -3.175);

    [Benchmark]
    public object Nts() => NtsOffset.Buffer(flat, -3.175);
}

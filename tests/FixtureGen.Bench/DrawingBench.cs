using BenchmarkDotNet.Attributes;
using FixtureGen.Drawing;
using FixtureGen.Drawing.Writing;
using FixtureGen.Model;

namespace FixtureGen.Bench;

/// <summary>Reading drawings: a demo outline, and a wave of 10,000 LINEs (1 MB) as a tracing program leaves it.</summary>
[MemoryDiagnoser]
public class DrawingBench
{
    private byte[] _outline = [];
    private byte[] _wave = [];

    [GlobalSetup]
    public void Setup()
    {
        _outline = DxfWriter.Write(Sheet([new DxfLoop("0", BenchShapes.RoundedRectangle()[0].Outer)]));
        _wave = DxfWriter.Write(Sheet([new DxfSegments("0", BenchShapes.Wiggle(10_000)[0].Outer.Segments)]));
    }

    [Benchmark]
    public int Rounded_rectangle() => Loops(_outline);

    [Benchmark]
    public int Wave_of_10_000_lines() => Loops(_wave);

    private static DxfSheet Sheet(DxfItem[] items) => new(LengthUnit.Millimetre, [], [.. items]);

    private static int Loops(byte[] bytes) =>
        DxfReader.Read(bytes, "bench.dxf", null, Tolerances.House).Value!.Loops.Length;
}

using System.Collections.Immutable;
using System.Runtime.InteropServices;
using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>An operation of the kernel with all that it is asked of, as numbers; equal only where every bit is.</summary>
internal sealed class KernelQuestion : IEquatable<KernelQuestion>
{
    // Not finite, so that no coordinate is taken for the end of a list.
    private const double EndOfContour = double.PositiveInfinity;
    private const double EndOfRegion = double.NegativeInfinity;
    private const double EndOfSet = double.NaN;

    private readonly List<double> _numbers = [];
    private string _operation = "";

    private ReadOnlySpan<long> Bits => MemoryMarshal.Cast<double, long>(CollectionsMarshal.AsSpan(_numbers));

    public void Clear() => _numbers.Clear();

    public KernelQuestion Copy()
    {
        KernelQuestion copy = new() { _operation = _operation };
        copy._numbers.AddRange(_numbers);
        return copy;
    }

    public void Put(string asked, double amount)
    {
        _operation = asked;
        _numbers.Add(amount);
    }

    public void Put(IReadOnlyList<Region> regions)
    {
        foreach (Region region in regions)
        {
            Put(region.Outer.Segments);
            foreach (Contour hole in region.Holes)
            {
                Put(hole.Segments);
            }
            _numbers.Add(EndOfRegion);
        }
        _numbers.Add(EndOfSet);
    }

    public void Put(ImmutableArray<Segment> segments)
    {
        foreach (Segment s in segments)
        {
            _numbers.AddRange([s.Start.X, s.Start.Y, s.End.X, s.End.Y, s.Centre.X, s.Centre.Y, (double)s.Kind]);
        }
        _numbers.Add(EndOfContour);
    }

    public bool Equals(KernelQuestion? other) =>
        other is not null && _operation == other._operation && Bits.SequenceEqual(other.Bits);

    public override bool Equals(object? obj) => Equals(obj as KernelQuestion);

    public override int GetHashCode()
    {
        ulong mixed = (ulong)_numbers.Count;
        foreach (long bits in Bits)
        {
            mixed = (ulong.RotateLeft(mixed, 23) ^ (ulong)bits) * 0x9E3779B97F4A7C15;
        }
        return (int)(mixed >> 32);
    }
}

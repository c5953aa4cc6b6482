using System.Runtime.InteropServices;

namespace FixtureGen.Geometry;

/// <summary>How a raw curve's end meets the next one.</summary>
internal enum Link
{
    /// <summary>It meets nothing.</summary>
    Open,

    /// <summary>They share a point and cannot meet anywhere else: two lines, or curves tangent to each other.</summary>
    Once,

    /// <summary>They share a point and may cross once more.</summary>
    Shared,
}

/// <summary>Curves that still cross each other, each with the one that follows it.</summary>
internal sealed class RawCurves
{
    private Curve[] curves = [];

    public int Count { get; private set; }

    /// <summary>Index of the curve that follows, meaningful unless the link is open.</summary>
    public List<int> Next { get; } = [];

    public List<Link> Links { get; } = [];

    public Curve[] Array => curves;

    public Span<Curve> Span => curves.AsSpan(0, Count);

    public void Clear()
    {
        Count = 0;
        Next.Clear();
        Links.Clear();
    }

    public int Add(in Curve c)
    {
        if (Count == curves.Length)
        {
            System.Array.Resize(ref curves, Math.Max(64, 2 * Count));
        }
        curves[Count] = c;
        Next.Add(-1);
        Links.Add(Link.Open);
        return Count++;
    }

    public void Connect(int from, int to, Link link)
    {
        CollectionsMarshal.AsSpan(Next)[from] = to;
        CollectionsMarshal.AsSpan(Links)[from] = link;
    }
}

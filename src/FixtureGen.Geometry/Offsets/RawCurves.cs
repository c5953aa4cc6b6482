namespace FixtureGen.Geometry;

/// <summary>Curves that still cross each other, each with the one that follows it.</summary>
internal sealed class RawCurves
{
    private readonly CurveList curves = new();
    private int[] next = [];
    private int[] sources = [];

    public int Count => curves.Count;

    public Curve[] Items => curves.Items;

    public void Clear() => curves.Clear();

    /// <param name="source">The source curve that it is everywhere as far from as was asked.</param>
    public int Add(in Curve c, int source)
    {
        curves.Add(c);
        if (next.Length < curves.Items.Length)
        {
            Array.Resize(ref next, curves.Items.Length);
            Array.Resize(ref sources, curves.Items.Length);
        }
        int id = curves.Count - 1;
        next[id] = -1;
        sources[id] = source;
        return id;
    }

    /// <summary>The source curve of a raw one.</summary>
    public int Source(int curve) => sources[curve];

    public void Connect(int from, int to) => next[from] = to;

    /// <summary>The curve that follows, or -1.</summary>
    public int Next(int curve) => next[curve];
}

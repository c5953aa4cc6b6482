namespace FixtureGen.Geometry;

/// <summary>How a raw curve's end meets the next one.</summary>
internal enum Link : byte
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
    private CurveList curves = new();
    private int[] next = [];
    private Link[] links = [];
    private int[] sources = [];
    private bool[] shown = [];

    public int Count => curves.Count;

    public Curve[] Items => curves.Items;

    public Span<Curve> Span => curves.Span;

    /// <summary>Starts anew for so many source curves.</summary>
    public void Begin(int sourceCount)
    {
        curves.Clear();
        Growing.Reserve(ref shown, sourceCount);
        Array.Clear(shown, 0, sourceCount);
    }

    /// <param name="source">The source curve that it is everywhere as far from as was asked.</param>
    public int Add(in Curve c, int source)
    {
        curves.Add(c);
        if (next.Length < curves.Items.Length)
        {
            Array.Resize(ref next, curves.Items.Length);
            Array.Resize(ref links, curves.Items.Length);
            Array.Resize(ref sources, curves.Items.Length);
        }
        int id = curves.Count - 1;
        next[id] = -1;
        links[id] = Link.Open;
        sources[id] = source;
        return id;
    }

    /// <summary>Gives the curves to a table that is empty, in whose memory the next ones are gathered; only their links stay.</summary>
    public void GiveTo(CurveTable table) => curves = table.Exchange(curves);

    /// <summary>Notes that a source curve's own parallel, or a part of it, is among these.</summary>
    public void Show(int source) => shown[source] = true;

    /// <summary>False for a source curve of which nothing is left but, perhaps, the joint after it.</summary>
    public bool Shows(int source) => shown[source];

    /// <summary>The source curve of a raw one.</summary>
    public int Source(int curve) => sources[curve];

    public void Connect(int from, int to, Link link)
    {
        next[from] = to;
        links[from] = link;
    }

    /// <summary>The curve that follows, or -1.</summary>
    public int Next(int curve) => next[curve];

    public Link LinkAfter(int curve) => links[curve];

    /// <summary>True when the two share an end and cannot meet anywhere else.</summary>
    public bool MeetOnce(int i, int j) =>
        (next[i] == j && links[i] == Link.Once) || (next[j] == i && links[j] == Link.Once);
}

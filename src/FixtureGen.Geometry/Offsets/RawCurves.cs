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
    private CurveList _curves = new();
    private int[] _next = [];
    private Link[] _links = [];
    private int[] _sources = [];
    private bool[] _shown = [];

    public int Count => _curves.Count;

    public Curve[] Items => _curves.Items;

    public Span<Curve> Span => _curves.Span;

    /// <summary>Starts anew for so many source curves.</summary>
    public void Begin(int sourceCount)
    {
        _curves.Clear();
        Growing.Reserve(ref _shown, sourceCount);
        Array.Clear(_shown, 0, sourceCount);
    }

    /// <param name="source">The source curve that it is everywhere as far from as was asked.</param>
    public int Add(in Curve c, int source)
    {
        _curves.Add(c);
        if (_next.Length < _curves.Items.Length)
        {
            Array.Resize(ref _next, _curves.Items.Length);
            Array.Resize(ref _links, _curves.Items.Length);
            Array.Resize(ref _sources, _curves.Items.Length);
        }
        int id = _curves.Count - 1;
        _next[id] = -1;
        _links[id] = Link.Open;
        _sources[id] = source;
        return id;
    }

    /// <summary>Gives the curves to a table that is empty, in whose memory the next ones are gathered; only their links stay.</summary>
    public void GiveTo(CurveTable table) => _curves = table.Exchange(_curves);

    /// <summary>Notes that a source curve's own parallel, or a part of it, is among these.</summary>
    public void Show(int source) => _shown[source] = true;

    /// <summary>False for a source curve of which nothing is left but, perhaps, the joint after it.</summary>
    public bool Shows(int source) => _shown[source];

    /// <summary>The source curve of a raw one.</summary>
    public int Source(int curve) => _sources[curve];

    public void Connect(int from, int to, Link link)
    {
        _next[from] = to;
        _links[from] = link;
    }

    /// <summary>The curve that follows, or -1.</summary>
    public int Next(int curve) => _next[curve];

    public Link LinkAfter(int curve) => _links[curve];

    /// <summary>True when the two share an end and cannot meet anywhere else.</summary>
    public bool MeetOnce(int i, int j) =>
        (_next[i] == j && _links[i] == Link.Once) || (_next[j] == i && _links[j] == Link.Once);
}

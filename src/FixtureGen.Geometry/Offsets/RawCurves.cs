namespace FixtureGen.Geometry;

/// <summary>Curves that still cross each other, each with the one that follows it.</summary>
internal sealed class RawCurves
{
    private CurveList _curves = new();
    private int[] _next = [];
    private int[] _sources = [];
    private bool[] _shown = [];
    private bool[] _shownCorners = [];

    public int Count => _curves.Count;

    public Curve[] Items => _curves.Items;

    public Span<Curve> Span => _curves.Span;

    /// <summary>Starts anew for so many source curves.</summary>
    public void Begin(int sourceCount)
    {
        _curves.Clear();
        Growing.Reserve(ref _shown, sourceCount);
        Growing.Reserve(ref _shownCorners, sourceCount);
        Array.Clear(_shown, 0, sourceCount);
        Array.Clear(_shownCorners, 0, sourceCount);
    }

    /// <param name="source">The source curve that it is everywhere as far from as was asked.</param>
    public int Add(in Curve c, int source)
    {
        _curves.Add(c);
        if (_next.Length < _curves.Items.Length)
        {
            Array.Resize(ref _next, _curves.Items.Length);
            Array.Resize(ref _sources, _curves.Items.Length);
        }
        int id = _curves.Count - 1;
        _next[id] = -1;
        _sources[id] = source;
        return id;
    }

    /// <summary>Gives the curves to a table that is empty, in whose memory the next ones are gathered; only their links stay.</summary>
    public void GiveTo(CurveTable table) => _curves = table.Exchange(_curves);

    /// <summary>Notes that a source curve's own parallel, or a part of it, is among these.</summary>
    public void Show(int source) => _shown[source] = true;

    /// <summary>False for a source curve of which nothing is left but, perhaps, the joint after it.</summary>
    public bool Shows(int source) => _shown[source];

    /// <summary>Notes that the whole arc about the corner after a source curve, or the mitre in its place, is among these.</summary>
    public void ShowCorner(int source) => _shownCorners[source] = true;

    /// <summary>False where there is no arc about the corner after a source curve.</summary>
    public bool ShowsCorner(int source) => _shownCorners[source];

    /// <summary>The source curve of a raw one.</summary>
    public int Source(int curve) => _sources[curve];

    public void Connect(int from, int to) => _next[from] = to;

    /// <summary>The curve that follows, or -1.</summary>
    public int Next(int curve) => _next[curve];
}

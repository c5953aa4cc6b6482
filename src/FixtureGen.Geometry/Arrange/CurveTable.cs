namespace FixtureGen.Geometry;

/// <summary>Curves with the numbers of the points they run between and of the curve they came from.</summary>
internal sealed class CurveTable
{
    private int[] _startIds = [];
    private int[] _endIds = [];
    private int[] _origins = [];
    private int[] _parents = [];
    private byte[] _ways = [];

    public CurveList List { get; private set; } = new();

    public int Count => List.Count;

    public Curve[] Items => List.Items;

    public int[] StartIds => _startIds;

    public int[] EndIds => _endIds;

    /// <summary>The curve, in the caller's counting, that each one is a part of.</summary>
    public int[] Origins => _origins;

    /// <summary>The curve of the round before that each one is a part of.</summary>
    public int[] Parents => _parents;

    /// <summary>Which way each one runs, see <see cref="Heading"/>.</summary>
    public byte[] Ways => _ways;

    public void Clear() => List.Clear();

    /// <summary>Adds curves of the round before that stay as they are.</summary>
    public void AddRange(CurveTable from, int first, int end)
    {
        int at = List.Count;
        int length = end - first;
        List.AddRange(from.Items.AsSpan(first, length));
        MakeRoom();
        Array.Copy(from._startIds, first, _startIds, at, length);
        Array.Copy(from._endIds, first, _endIds, at, length);
        Array.Copy(from._origins, first, _origins, at, length);
        Growing.Number(_parents.AsSpan(at, length), first);
        Array.Copy(from._ways, first, _ways, at, length);
    }

    public void Add(in Curve c, int start, int end, int origin, int parent)
    {
        int i = List.Count;
        List.Add(c);
        MakeRoom();
        _startIds[i] = start;
        _endIds[i] = end;
        _origins[i] = origin;
        _parents[i] = parent;
        _ways[i] = Heading.From(c);
    }

    /// <summary>Room for the ways of so many curves more, for which there must be room.</summary>
    public Span<byte> RoomForWays(int more) => _ways.AsSpan(List.Count, more);

    /// <summary>Takes a list of curves for its own and gives its list for it; their points follow by <see cref="Join"/>.</summary>
    public CurveList Exchange(CurveList other)
    {
        CurveList own = List;
        List = other;
        MakeRoom();
        Growing.Number(_origins.AsSpan(0, other.Count), 0);
        Growing.Number(_parents.AsSpan(0, other.Count), 0);
        return own;
    }

    /// <summary>Says between which points a curve runs that was taken.</summary>
    public void Join(int curve, int start, int end)
    {
        _startIds[curve] = start;
        _endIds[curve] = end;
        _ways[curve] = Heading.From(List.Items[curve]);
    }

    /// <summary>Room for so many curves more, to be written before they are taken.</summary>
    public Span<Curve> Room(int more)
    {
        List.Reserve(List.Count + more);
        MakeRoom();
        return List.Items.AsSpan(List.Count, more);
    }

    /// <summary>Takes curves that were written into the room: a chain from a point through points that follow each other.</summary>
    /// <param name="start">The point that the chain begins in.</param>
    /// <param name="second">The point that its first curve ends in.</param>
    public void TakeChain(int count, int start, int second)
    {
        int at = List.Count;
        List.Take(count);
        Growing.Number(_startIds.AsSpan(at, count), second - 1);
        Growing.Number(_endIds.AsSpan(at, count), second);
        Growing.Number(_origins.AsSpan(at, count), at);
        Growing.Number(_parents.AsSpan(at, count), at);
        _startIds[at] = start;
    }

    private void MakeRoom()
    {
        if (_startIds.Length < List.Items.Length)
        {
            Grow();
        }
    }

    private void Grow()
    {
        int size = List.Items.Length;
        Array.Resize(ref _startIds, size);
        Array.Resize(ref _endIds, size);
        Array.Resize(ref _origins, size);
        Array.Resize(ref _parents, size);
        Array.Resize(ref _ways, size);
    }
}

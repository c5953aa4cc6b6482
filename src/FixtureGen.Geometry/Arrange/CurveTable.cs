namespace FixtureGen.Geometry;

/// <summary>Curves with the numbers of the points they run between and of the curve they came from.</summary>
internal sealed class CurveTable
{
    private int[] startIds = [];
    private int[] endIds = [];
    private int[] origins = [];
    private int[] parents = [];
    private byte[] ways = [];

    public CurveList List { get; private set; } = new();

    public int Count => List.Count;

    public Curve[] Items => List.Items;

    public int[] StartIds => startIds;

    public int[] EndIds => endIds;

    /// <summary>The curve, in the caller's counting, that each one is a part of.</summary>
    public int[] Origins => origins;

    /// <summary>The curve of the round before that each one is a part of.</summary>
    public int[] Parents => parents;

    /// <summary>Which way each one runs, see <see cref="Way"/>.</summary>
    public byte[] Ways => ways;

    public void Clear() => List.Clear();

    /// <summary>Adds curves of the round before that stay as they are.</summary>
    public void AddRange(CurveTable from, int first, int end)
    {
        int at = List.Count;
        int length = end - first;
        List.AddRange(from.Items.AsSpan(first, length));
        MakeRoom();
        Array.Copy(from.startIds, first, startIds, at, length);
        Array.Copy(from.endIds, first, endIds, at, length);
        Array.Copy(from.origins, first, origins, at, length);
        Growing.Number(parents.AsSpan(at, length), first);
        Array.Copy(from.ways, first, ways, at, length);
    }

    public void Add(in Curve c, int start, int end, int origin, int parent)
    {
        int i = List.Count;
        List.Add(c);
        MakeRoom();
        startIds[i] = start;
        endIds[i] = end;
        origins[i] = origin;
        parents[i] = parent;
        ways[i] = Way.From(c);
    }

    /// <summary>Room for the ways of so many curves more, for which there must be room.</summary>
    public Span<byte> RoomForWays(int more) => ways.AsSpan(List.Count, more);

    /// <summary>Takes a list of curves for its own and gives its list for it; their points follow by <see cref="Join"/>.</summary>
    public CurveList Exchange(CurveList other)
    {
        CurveList own = List;
        List = other;
        MakeRoom();
        Growing.Number(origins.AsSpan(0, other.Count), 0);
        Growing.Number(parents.AsSpan(0, other.Count), 0);
        return own;
    }

    /// <summary>Says between which points a curve runs that was taken.</summary>
    public void Join(int curve, int start, int end)
    {
        startIds[curve] = start;
        endIds[curve] = end;
        ways[curve] = Way.From(List.Items[curve]);
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
        Growing.Number(startIds.AsSpan(at, count), second - 1);
        Growing.Number(endIds.AsSpan(at, count), second);
        Growing.Number(origins.AsSpan(at, count), at);
        Growing.Number(parents.AsSpan(at, count), at);
        startIds[at] = start;
    }

    private void MakeRoom()
    {
        if (startIds.Length < List.Items.Length)
        {
            Grow();
        }
    }

    private void Grow()
    {
        int size = List.Items.Length;
        Array.Resize(ref startIds, size);
        Array.Resize(ref endIds, size);
        Array.Resize(ref origins, size);
        Array.Resize(ref parents, size);
        Array.Resize(ref ways, size);
    }
}

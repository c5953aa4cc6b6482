using FixtureGen.Model;

namespace FixtureGen.Verify.Holding;

/// <summary>One table for each pattern of cut and each state of the hold, made when it is first asked for.</summary>
internal sealed class Tables(Box2 box)
{
    private readonly Dictionary<(CutPattern, int), GiveTable> _made = [];

    public GiveTable Get(CutPattern pattern, int state, Func<Held[]> ways)
    {
        if (!_made.TryGetValue((pattern, state), out GiveTable? table))
        {
            _made[(pattern, state)] = table = new GiveTable(ways(), pattern, box);
        }
        return table;
    }
}

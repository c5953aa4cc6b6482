using FixtureGen.Model;

namespace FixtureGen.Verify.Runs;

/// <summary>The worst place that each line of a program is to blame for, the first of equals: one finding a line is enough.</summary>
internal sealed class WorstPerLine
{
    private readonly SortedDictionary<int, (double Amount, Point2 At)> _worst = [];

    /// <summary>By line, lowest first.</summary>
    public IEnumerable<(int Line, double Amount, Point2 At)> All =>
        _worst.Select(w => (w.Key, w.Value.Amount, w.Value.At));

    /// <summary>The greater the amount the worse; 0 is no line in particular.</summary>
    public void Add(int line, double amount, Point2 at)
    {
        if (!_worst.TryGetValue(line, out (double Amount, Point2 At) known) || known.Amount < amount)
        {
            _worst[line] = (amount, at);
        }
    }
}

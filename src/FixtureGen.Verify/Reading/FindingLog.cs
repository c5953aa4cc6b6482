using FixtureGen.Model;

namespace FixtureGen.Verify.Reading;

/// <summary>Gathers the findings of one program; keeps the first few of each code and counts the rest, so that one slip does not bury the others.</summary>
internal sealed class FindingLog(string file)
{
    /// <summary>Findings of one code that are kept in full.</summary>
    private const int Kept = 12;

    /// <summary>More oddities of one kind than this are the program's own way, not slips.</summary>
    private const int MostOdd = 3;

    private readonly List<Finding> _findings = [];
    private readonly SortedDictionary<string, List<Finding>> _odd = new(StringComparer.Ordinal);
    private readonly SortedDictionary<string, int> _counts = new(StringComparer.Ordinal);

    public string File { get; } = file;

    public void Error(string code, int line, Text message, Text remedy, Point2? at = null) =>
        Add(Severity.Error, code, line, message, remedy, at);

    public void Warn(string code, int line, Text message, Text remedy, Point2? at = null) =>
        Add(Severity.Warning, code, line, message, remedy, at);

    /// <summary>
    /// A harmless thing that a program does nowhere else, as a slip would: reported only while it is rare, so that a program written in
    /// another manner is not buried in it. A line that two checks find odd counts once.
    /// </summary>
    public void Odd(string code, int line, Text message, Text remedy, Point2? at = null)
    {
        if (!_odd.TryGetValue(code, out List<Finding>? known))
        {
            _odd[code] = known = [];
        }
        if (known.Count <= MostOdd && !known.Exists(f => f.Line == line))
        {
            known.Add(Make(Severity.Warning, code, line, message, remedy, at));
        }
    }

    /// <summary>All findings by line; what was cut off is counted in one line a code.</summary>
    public IEnumerable<Finding> Findings()
    {
        IEnumerable<Finding> rest = _counts
            .Where(c => c.Value > Kept)
            .Select(c => new Finding(
                c.Key,
                _findings.First(f => f.Code == c.Key).Severity,
                File,
                More(c.Value - Kept),
                "Clear the first ones, then judge again"
            ));
        IEnumerable<Finding> rare = _odd.Values.Where(o => o.Count <= MostOdd).SelectMany(o => o);
        return _findings.Concat(rare).OrderBy(f => f.Line ?? int.MaxValue).Concat(rest);
    }

    private string Where(int line) => line > 0 ? FormattableString.Invariant($"{File}:{line}") : File;

    private static string More(int count) => FormattableString.Invariant($"and {count} more of the same");

    private void Add(Severity severity, string code, int line, Text message, Text remedy, Point2? at)
    {
        int seen = _counts.GetValueOrDefault(code);
        _counts[code] = seen + 1;
        if (seen < Kept)
        {
            _findings.Add(Make(severity, code, line, message, remedy, at));
        }
    }

    private Finding Make(Severity severity, string code, int line, Text message, Text remedy, Point2? at) =>
        new(code, severity, Where(line), message.Take(), remedy.Take()) { Line = line > 0 ? line : null, At = at };
}

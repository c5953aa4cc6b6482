using FixtureGen.App.Records;

namespace FixtureGen.App.Tests.Regeneration;

/// <summary>
/// What a shelf of blocks is, said again as simply as can be and by other means than the register's: lists of words that are
/// copied before each change, so that undoing is going back to the copy.
/// </summary>
internal sealed class ShelfModel
{
    private sealed record Piece(int Revision, int Number, string State, int Cycles, int Cord, int Leak);

    private readonly Dictionary<string, List<Piece>> _blocks = [];
    private readonly Dictionary<string, int> _newest = [];
    private readonly Dictionary<(string, int), int> _cut = [];
    private readonly Stack<(string Job, List<Piece> Before, bool WasCut, int Revision)> _past = new();

    public IEnumerable<string> Jobs => _newest.Keys.Order(StringComparer.Ordinal);

    public int Newest(string job) => _newest.GetValueOrDefault(job);

    public void Make(string job) => _newest[job] = Newest(job) + 1;

    /// <summary>Each as JOB revision number state cycles cord leak, sorted.</summary>
    public IEnumerable<string> Blocks =>
        _blocks
            .SelectMany(j =>
                j.Value.Select(p =>
                    FormattableString.Invariant(
                        $"{j.Key} {p.Revision} {p.Number} {p.State} {p.Cycles} {p.Cord} {p.Leak}"
                    )
                )
            )
            .Order(StringComparer.Ordinal);

    public static IEnumerable<string> Words(Register register) =>
        register
            .Blocks.Select(b =>
                FormattableString.Invariant(
                    $"{b.Job} {b.Revision} {b.Number} {RegisterWords.For(b.State)} {b.Cycles} {b.CordCycles} {b.LeakPaPerMin}"
                )
            )
            .Order(StringComparer.Ordinal);

    /// <summary>Carries a command out; false where it cannot be.</summary>
    public bool Do(string command, string job, int amount)
    {
        List<Piece> now = _blocks.GetValueOrDefault(job) ?? [];
        List<Piece> shelf = [.. now.Where(p => p.State != "scrapped").OrderBy(p => p.Revision).ThenBy(p => p.Number)];
        List<Piece> newest = [.. now.Where(p => p.Revision == Newest(job))];
        switch (command)
        {
            case "cut" when Newest(job) > 0 && newest.All(p => p.State != "cut"):
                return Add(job, now, Newest(job));
            case "spare" when shelf.Count > 0:
                return Add(job, now, shelf[^1].Revision);
            case "worn" when shelf.Where(p => p.State == "cut").ToArray() is { Length: > 0 } good:
                int last = good.Max(p => p.Revision);
                Piece worn = good.First(p => p.Revision == last);
                return Put(job, now, worn, worn with { State = "worn" });
            case "scrapped" when shelf.Count > 0:
                return Put(job, now, shelf[0], shelf[0] with { State = "scrapped" });
            case "cycles" when shelf.Count == 1:
                return Put(
                    job,
                    now,
                    shelf[0],
                    shelf[0] with
                    {
                        Cycles = shelf[0].Cycles + amount,
                        Cord = shelf[0].Cord + amount,
                    }
                );
            case "cord" when shelf.Count == 1:
                return Put(job, now, shelf[0], shelf[0] with { Cord = 0 });
            case "leak" when shelf.Count == 1:
                return Put(job, now, shelf[0], shelf[0] with { Leak = amount });
            default:
                return false;
        }
    }

    public bool Undo()
    {
        if (_past.Count == 0 || (_past.Peek().WasCut && Newest(_past.Peek().Job) > _past.Peek().Revision))
        {
            return false;
        }
        (string job, List<Piece> before, _, _) = _past.Pop();
        _blocks[job] = before;
        return true;
    }

    private bool Add(string job, List<Piece> now, int revision)
    {
        int number = _cut[(job, revision)] = _cut.GetValueOrDefault((job, revision)) + 1;
        _past.Push((job, now, true, revision));
        _blocks[job] = [.. now, new Piece(revision, number, "cut", 0, 0, 0)];
        return true;
    }

    private bool Put(string job, List<Piece> now, Piece old, Piece next)
    {
        _past.Push((job, now, false, old.Revision));
        _blocks[job] = [.. now.Select(p => p == old ? next : p)];
        return true;
    }
}

namespace FixtureGen.App.Library.Changes;

/// <summary>
/// How long a run will still take, from the pace of the newer half of what is done: a run begins slowly, before its code is
/// compiled.
/// </summary>
internal sealed class TimeLeft
{
    /// <summary>Before so many are done nobody can say.</summary>
    private const int Least = 4;

    private readonly List<double> _doneAt = [0];

    /// <summary>One more is done at a time since the start, s: the seconds for the others, null where it is too early to say.</summary>
    public double? Tell(double seconds, int total)
    {
        _doneAt.Add(seconds);
        int done = _doneAt.Count - 1;
        int half = done / 2;
        return done < Least ? null : (seconds - _doneAt[half]) / (done - half) * (total - done);
    }
}

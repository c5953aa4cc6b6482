using System.Diagnostics;
using System.Globalization;
using FixtureGen.App.Terminal;

namespace FixtureGen.App.Library.Changes;

/// <summary>A bar with an estimate on a terminal; one plain line a job when piped.</summary>
internal sealed class ProgressLine(Say say, bool piped, bool dryRun) : IDisposable
{
    private const int Width = 30;
    private readonly Stopwatch _watch = Stopwatch.StartNew();
    private readonly TimeLeft _left = new();
    private bool _drawn;

    /// <summary>After each job, from one thread at a time.</summary>
    /// <param name="change">The job that is done.</param>
    /// <param name="done">How many are done, this one included.</param>
    /// <param name="total">How many there are.</param>
    public void Tell(JobChange change, int done, int total)
    {
        CultureInfo c = CultureInfo.InvariantCulture;
        if (piped)
        {
            say.Error(
                string.Create(
                    c,
                    $"{done}/{total} {change.Job}: {ChangeReport.ResultWord(change.Result, dryRun)} ({change.Why})"
                )
            );
            return;
        }
        int filled = Width * done / total;
        string time = _left.Tell(_watch.Elapsed.TotalSeconds, total) is { } seconds
            ? string.Create(c, $"about {seconds:0} s left")
            : "warming up";
        string bar = new string('=', filled) + new string('.', Width - filled);
        Console.Error.Write(string.Create(c, $"\r[{bar}] {done}/{total} {time}  {change.Job}\u001b[K"));
        _drawn = true;
    }

    /// <summary>Wipes the bar.</summary>
    public void Dispose()
    {
        if (_drawn)
        {
            Console.Error.Write("\r\u001b[K");
            _drawn = false;
        }
    }
}

using System.Diagnostics;
using System.Globalization;
using FixtureGen.Model;

namespace FixtureGen.App.Terminal;

/// <summary>The two streams: results on standard output, progress and findings on standard error.</summary>
internal sealed class Say(TextWriter output, TextWriter error)
{
    private const double SlowStepSeconds = 0.5;

    /// <summary>A line for a person, on standard output.</summary>
    /// <exception cref="OutputLostException">It cannot be written.</exception>
    public void Line(string text) => Write(text + output.NewLine);

    /// <summary>Text as it is, on standard output, with a line feed at its end if it has none.</summary>
    /// <exception cref="OutputLostException">It cannot be written.</exception>
    public void Json(string text) => Write(text.EndsWith('\n') ? text : text + "\n");

    /// <summary>A line on standard error.</summary>
    public void Error(string text)
    {
        try
        {
            error.WriteLine(text);
        }
        catch (IOException)
        {
            // Nobody can be told; the exit code still says how it went.
        }
    }

    /// <summary>One line a finding: place, severity, code, what and by how much, remedy.</summary>
    public void Findings(IEnumerable<Finding> findings)
    {
        foreach (Finding f in findings.OrderByDescending(f => f.Severity))
        {
            string line =
                f.Line is int n && !f.Where.Contains(':', StringComparison.Ordinal)
                    ? string.Create(CultureInfo.InvariantCulture, $":{n}")
                    : "";
            Error($"{f.Where}{line}: {Words.For(f.Severity)} {f.Code}: {f.Message} -> {f.Remedy}");
        }
    }

    private void Write(string text)
    {
        try
        {
            output.Write(text);
            output.Flush();
        }
        catch (IOException e)
        {
            throw new OutputLostException(e);
        }
    }

    /// <summary>Times the steps of one run; on a terminal a step that takes over half a second is named while it runs.</summary>
    public Steps Steps() => new(Console.IsErrorRedirected ? null : error, SlowStepSeconds);
}

/// <summary>Seconds by step, in order.</summary>
internal sealed class Steps(TextWriter? terminal, double slowSeconds) : IDisposable
{
    private readonly List<(string Step, double Seconds)> _done = [];
    private readonly Stopwatch _watch = new();
    private readonly Lock _gate = new();
    private string? _current;
    private Timer? _timer;
    private bool _shown;

    /// <summary>Ends the step before and starts the clock of this one.</summary>
    public void Begin(string step)
    {
        End();
        _current = step;
        _watch.Restart();
        if (terminal is not null)
        {
            _timer = new Timer(_ => Show(step), null, TimeSpan.FromSeconds(slowSeconds), Timeout.InfiniteTimeSpan);
        }
    }

    /// <summary>Ends the step that runs; every step so far with its wall time in seconds.</summary>
    public IReadOnlyList<(string Step, double Seconds)> Done
    {
        get
        {
            End();
            return _done;
        }
    }

    /// <summary>Ends the step that runs and wipes its name from the terminal.</summary>
    public void Dispose() => End();

    private void Show(string step)
    {
        lock (_gate)
        {
            terminal!.Write($"\r{step} ...\u001b[K");
            terminal.Flush();
            _shown = true;
        }
    }

    private void End()
    {
        if (_current is null)
        {
            return;
        }
        _done.Add((_current, _watch.Elapsed.TotalSeconds));
        _current = null;
        _timer?.Dispose();
        lock (_gate)
        {
            if (_shown)
            {
                terminal!.Write("\r\u001b[K");
                terminal.Flush();
                _shown = false;
            }
        }
    }
}

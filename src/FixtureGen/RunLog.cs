using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen;

/// <summary>Gathers findings, reports progress, and stops a run on the first stage with an error.</summary>
internal sealed class RunLog(Action<string> progress)
{
    private readonly List<Finding> _findings = [];

    public ImmutableArray<Finding> Findings => [.. _findings];

    /// <summary>Forgets the findings from this one on: their steps are run again.</summary>
    public void Back(int count) => _findings.RemoveRange(count, _findings.Count - count);

    /// <exception cref="Stopped">The stage found an error, now among the findings.</exception>
    public T Take<T>(string step, Func<Stage<T>> run)
    {
        Stage<T> stage = Do(step, run);
        _findings.AddRange(stage.Findings);
        return stage.Ok ? stage.Value! : throw new Stopped();
    }

    /// <summary>As <see cref="Take"/>, but an answer that is refused is handed on all the same: <see cref="Stop"/> ends the run.</summary>
    /// <exception cref="Stopped">There is no answer.</exception>
    public T Keep<T>(string step, Func<Stage<T>> run)
        where T : class
    {
        Stage<T> stage = Do(step, run);
        _findings.AddRange(stage.Findings);
        return stage.Value ?? throw new Stopped();
    }

    /// <exception cref="Stopped">An error stands among the findings.</exception>
    public void Stop()
    {
        if (_findings.Any(f => f.Severity == Severity.Error))
        {
            throw new Stopped();
        }
    }

    /// <exception cref="Stopped">The kernel could prove no result; the findings say in which step.</exception>
    public T Do<T>(string step, Func<T> run)
    {
        progress(step);
        try
        {
            return run();
        }
        catch (KernelException e)
        {
            _findings.Add(
                new(
                    "geometry-unproven",
                    Severity.Error,
                    step,
                    e.Message + ": nothing was made, for an unproven outline would be cut",
                    "Draw clean where the outline touches, overlaps or retraces itself, or move that place by 0.01 mm; if it is clean, keep the drawing for a fault report."
                )
            );
            throw new Stopped();
        }
    }
}

/// <summary>Ends a run whose findings already say why.</summary>
internal sealed class Stopped : Exception;

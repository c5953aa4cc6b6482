using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Design.Block;

/// <summary>Gathers the findings of the design's steps; a step without a value ends the design by <see cref="RefusedException"/>.</summary>
internal sealed class FindingLog
{
    private readonly List<Finding> _findings = [];

    public ImmutableArray<Finding> Findings => [.. _findings];

    public void AddRange(IEnumerable<Finding> findings) => _findings.AddRange(findings);

    public T Take<T>(Stage<T> stage)
    {
        _findings.AddRange(stage.Findings);
        return EqualityComparer<T?>.Default.Equals(stage.Value, default) ? throw new RefusedException() : stage.Value!;
    }

    /// <summary>Runs a story; where a step refused, the stage carries the findings so far and no value.</summary>
    public static Stage<T> Tell<T>(Func<FindingLog, T> story)
    {
        FindingLog log = new();
        try
        {
            return Stage.Answer(story(log), log.Findings);
        }
        catch (RefusedException)
        {
            return Stage.Failed<T>(log.Findings);
        }
    }

    private sealed class RefusedException : Exception;
}

using System.Collections.Immutable;

namespace FixtureGen.Model;

/// <summary>
/// What a stage of the pipeline returns: its value and its findings. Value is null (default) only where an error finding
/// says why; a stage never throws for bad input.
/// </summary>
public sealed record Stage<T>(T? Value, ImmutableArray<Finding> Findings)
{
    /// <summary>True when there is a value and no error among the findings.</summary>
    public bool Ok => Value is not null && Findings.All(f => f.Severity != Severity.Error);
}

/// <summary>Makes stages.</summary>
public static class Stage
{
    /// <summary>A value without findings.</summary>
    public static Stage<T> Answer<T>(T value) => new(value, []);

    /// <summary>A value with findings. One of them may be an error: then the stage is not ok, though the value is there to look at.</summary>
    public static Stage<T> Answer<T>(T value, IEnumerable<Finding> findings) => new(value, [.. findings]);

    /// <summary>No value; at least one of the findings is an error.</summary>
    public static Stage<T> Failed<T>(params IEnumerable<Finding> findings) => new(default, [.. findings]);
}

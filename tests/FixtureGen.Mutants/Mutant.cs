namespace FixtureGen.Mutants;

/// <summary>
/// One small fault put into the judge's source: <paramref name="Was"/> became <paramref name="Becomes"/>, at a 1-based line of a
/// file below the judge's folder.
/// </summary>
internal sealed record Mutant(int Id, string File, int Line, string Kind, string Was, string Becomes)
{
    public override string ToString() => $"{Id} {File}:{Line} {Kind}: {Was} -> {Becomes}";
}

/// <summary>What the tests said of a mutant.</summary>
internal enum Fate
{
    /// <summary>No test reaches its place.</summary>
    Unreached,

    /// <summary>Every test passed.</summary>
    Survived,

    /// <summary>A test failed, or the tests did not end in time.</summary>
    Killed,
}

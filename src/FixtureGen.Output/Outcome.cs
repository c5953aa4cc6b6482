using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Output.Reports;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Output;

/// <summary>A finished file, not yet on disk.</summary>
public sealed record OutputFile(string Name, ImmutableArray<byte> Bytes);

/// <summary>What a run returns. Files is empty unless Report.Ok.</summary>
public sealed record Outcome(
    Report Report,
    ImmutableArray<Finding> Findings,
    ImmutableArray<OutputFile> Files,
    Job? Job,
    FixtureDesign? Design,
    HoldingResult? Holding,
    VerifyResult? Verdict
);

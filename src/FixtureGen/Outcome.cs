using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Output;
using FixtureGen.Verify;

namespace FixtureGen;

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

/// <summary>A job with its drawing, design and holding answer. Part is in the part frame.</summary>
public sealed record Designed(Job Job, Part Part, FixtureDesign Design, HoldingResult Holding, CutDirection Direction);

/// <summary>A job with its drawing read and placed. Part is in the part frame.</summary>
public sealed record Placed(Job Job, Part Part, Placement Placement);

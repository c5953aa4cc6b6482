using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen;

/// <summary>What a run of the pipeline came to. What it did not reach is null or empty; Findings say why.</summary>
public sealed record PipelineResult
{
    /// <summary>True where nothing was refused; for one program judged, the verdict's own.</summary>
    public required bool Ok { get; init; }

    /// <summary>All that was found, in the order of the stages; for one program judged, the judge's only.</summary>
    public required ImmutableArray<Finding> Findings { get; init; }

    /// <summary>The job as it was numbered and solved.</summary>
    public Job? Job { get; init; }

    /// <summary>The features, plate frame.</summary>
    public FixtureDesign? Design { get; init; }

    /// <summary>The design with its drawing and holding answer; a hold that was refused is there.</summary>
    public Designed? Designed { get; init; }

    /// <summary>What each program does, in the order of running.</summary>
    public ImmutableArray<ProgramPlan> Plans { get; init; } = [];

    /// <summary>How the block is held while it is cut, by operation.</summary>
    public ImmutableArray<BlockHold> BlockHolds { get; init; } = [];

    /// <summary>The finished texts.</summary>
    public ImmutableArray<ProgramText> Programs { get; init; } = [];

    /// <summary>Cutters that the rack does not have and that would save time on the block, the most first.</summary>
    public ImmutableArray<MissingCutter> MissingCutters { get; init; } = [];

    /// <summary>The judge's answer.</summary>
    public VerifyResult? Verdict { get; init; }

    /// <summary>What was read, by content; only of a run that was made.</summary>
    public ImmutableArray<InputFacts> Inputs { get; init; } = [];
}

/// <summary>A job with its drawing, design and holding answer. Part is in the part frame.</summary>
public sealed record Designed(Job Job, Part Part, FixtureDesign Design, HoldingResult Holding, CutDirection Direction)
{
    /// <summary>What was chosen for the keys that the job leaves open.</summary>
    public required SolveReport Solve { get; init; }
}

/// <summary>A job with its drawing read and placed. Part is in the part frame.</summary>
public sealed record Placed(Job Job, Part Part, Placement Placement);

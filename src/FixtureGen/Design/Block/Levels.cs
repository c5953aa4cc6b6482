using FixtureGen.Model;

namespace FixtureGen.Design.Block;

/// <summary>
/// The heights every depth counts from, mm above the plate's face: the skimmed Face that the shell rests on, the Raw
/// block's top, the trim tip and the relief's floor below it.
/// </summary>
internal sealed record Levels(double Face, double Raw, double TrimTip, double ReliefFloor)
{
    public static Levels From(Job job)
    {
        double tip = job.Rules.FixtureHeight - job.Rules.TipBelowShell;
        return new(job.Rules.FixtureHeight, job.BlankThickness, tip, tip - job.Rules.ReliefFloorBelowTip);
    }

    /// <summary>
    /// The levels, or what is wrong with them: too little to skim, a blank that may be too thin for its face to be cut clean, a relief
    /// too deep for the block.
    /// </summary>
    public static Stage<Levels> Checked(Job job)
    {
        Levels levels = From(job);
        List<Finding> findings = [];
        double skim = levels.Raw - levels.Face;
        if (skim < job.Rules.LeastSkim)
        {
            findings.Add(BlockFindings.SkimTooThin(skim, job.Rules.LeastSkim, levels.Raw, levels.Face));
        }
        else if (skim < job.BlankTolerance - 1e-9)
        {
            findings.Add(BlockFindings.SkimMissesThin(job.BlankTolerance, levels.Raw, levels.Face));
        }
        if (levels.ReliefFloor < job.Rules.LeastFloor)
        {
            findings.Add(BlockFindings.FloorThin("relief", null, levels.ReliefFloor, job.Rules.LeastFloor));
        }
        return Stage.Answer(levels, findings);
    }
}

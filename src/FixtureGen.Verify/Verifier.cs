using FixtureGen.Model;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify;

/// <summary>
/// The judge. It reads finished program text, carves a block with it and says whether it did harm; it knows nothing of how the
/// program was made. Never throws for bad text: whatever is wrong is a finding.
/// </summary>
public static class Verifier
{
    /// <summary>Characters of the longest program that is read; of a longer one no more than one beyond need be given.</summary>
    public const int MostCharacters = JudgeBounds.MostCharacters;

    /// <summary>
    /// Judges the given programs in their order of running on one block. A block or program beyond what the judge takes on is
    /// refused with a finding before anything is read; no program at all has no fault.
    /// </summary>
    public static VerifyResult Judge(VerifyRequest request)
    {
        if (JudgeBounds.Refuse(request) is { } refused)
        {
            return refused;
        }
        BlockGrid block = BlockGrid.Raw(request.Design, request.Limits.Cell);
        Judgement judgement = new(request.Job, request.Design, request.Limits, request.Drawing, block);
        foreach (ProgramText program in request.Programs.OrderBy(p => p.Setup))
        {
            judgement.Add(program);
        }
        return judgement.Result();
    }

    /// <summary>
    /// Judges one file on a block whose earlier setups are as designed. Without a setup it is known from the program number among
    /// the given programs of the job, else from the first comment, else from the file's name; where none says it, the finding is the error
    /// setup-unknown.
    /// </summary>
    /// <param name="setup">Null to find out.</param>
    /// <param name="known">The job's programs, for their numbers; one that is not among them may have any number.</param>
    /// <param name="drawing">As for <see cref="VerifyRequest.Drawing"/>.</param>
    public static VerifyResult JudgeOne(
        Job job,
        FixtureDesign design,
        string fileName,
        string text,
        Setup? setup,
        IReadOnlyList<ProgramText> known,
        Limits limits,
        Part? drawing
    )
    {
        Setup? found = setup ?? SetupGuess.Guess(job, design, fileName, text, known);
        if (found is not { } sure)
        {
            return SetupGuess.Unknown(design, fileName, limits);
        }
        int number = known.FirstOrDefault(p => p.Setup == sure)?.ProgramNumber ?? 0;
        ProgramText program = new(sure, number, fileName, text);
        return Judge(new VerifyRequest(job, design, [program], limits) { Drawing = drawing });
    }
}

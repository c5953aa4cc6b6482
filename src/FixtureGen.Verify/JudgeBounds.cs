using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify;

/// <summary>
/// What the judge takes on. A hand-made job or program beyond it is refused before any memory is spent on it: judging is
/// bounded in time and memory whatever it is given.
/// </summary>
internal static class JudgeBounds
{
    /// <summary>Cells of one side of a block: 77 cm square at 0.1 mm, a quarter of a gigabyte.</summary>
    private const double MostCells = 60e6;

    /// <summary>Lines of one program, some thirty times those of the longest demo program.</summary>
    private const int MostLines = 100_000;

    /// <summary>Characters of one program, a hundred a line.</summary>
    public const int MostCharacters = 10_000_000;

    /// <summary>The refusal, or null when all is within bounds.</summary>
    public static VerifyResult? Refuse(VerifyRequest request)
    {
        Box2 box = request.Design.Placement.BlankBox;
        double cell = request.Limits.Cell;
        double cells = box.Width / cell * (box.Height / cell);
        if (!(cells <= MostCells))
        {
            return Refused(
                request,
                request.Programs,
                "block-too-large",
                $"a block of {box.Width:0} x {box.Height:0} mm has {cells / 1e6:0} million cells of {cell:0.###} mm, {MostCells / 1e6:0} million is the most",
                "Check the blank's size and its unit"
            );
        }
        ImmutableArray<ProgramText> large = [.. request.Programs.Where(p => p.Text.Length > MostCharacters)];
        if (!large.IsEmpty)
        {
            return Refused(
                request,
                large,
                "program-too-long",
                $"the program has more than {MostCharacters / 1_000_000} million characters, which is the most",
                "Check that the file is a program"
            );
        }
        ImmutableArray<ProgramText> longOnes = [.. request.Programs.Where(p => LinesOf(p.Text) > MostLines)];
        return longOnes.IsEmpty
            ? null
            : Refused(
                request,
                longOnes,
                "program-too-long",
                $"the program has {LinesOf(longOnes[0].Text)} lines, {MostLines} is the most",
                "Write arcs as arcs, or cut in several programs"
            );
    }

    private static int LinesOf(string text) => text.AsSpan().Count('\n') + 1;

    private static VerifyResult Refused(
        VerifyRequest request,
        ImmutableArray<ProgramText> programs,
        string code,
        FormattableString what,
        string remedy
    )
    {
        string message = FormattableString.Invariant(what);
        BlockGrid standIn = new(new Box2(0, 0, 8, 8), 1, 0, request.Design.RawThickness);
        return new VerifyResult(
            false,
            request.Limits.Cell,
            0,
            0,
            0,
            [
                .. programs.Select(p => new ProgramVerdict
                {
                    Setup = p.Setup,
                    FileName = p.FileName,
                    ProgramNumber = null,
                    Findings = [new Finding(code, Severity.Error, p.FileName, message, remedy)],
                    Lines = LinesOf(p.Text),
                    Arcs = 0,
                    Minutes = 0,
                    CutMm = 0,
                    RapidMm = 0,
                    RemovedMm3 = 0,
                    AirCutShare = 0,
                    Tools = [],
                    Motions = [],
                }),
            ],
            standIn
        );
    }
}

using System.Globalization;
using FixtureGen.App.Records;
using FixtureGen.Model;

namespace FixtureGen.App.Library;

/// <summary>Takes back the last thing that somebody noted and that still stands. The mistake stays in the past, with its correction.</summary>
internal static class Undo
{
    /// <summary>Refused where nothing was noted, or a block noted as cut has led to a next revision since.</summary>
    public static Stage<Register> Last(Register register, string folder, Occasion occasion)
    {
        RegisterEvent[] standing = [.. BlockPast.Standing(register)];
        RegisterEvent? last = standing.LastOrDefault(e =>
            BlockPast.IsOfBlock(e.What)
            || (e.What == Happening.Answered && register.Notices[e.Amount - 1].Answer != NoticeAnswer.Scrapped)
        );
        if (last is null)
        {
            return Stage.Failed<Register>(Refused(folder, "nothing was noted that stands", "see --history"));
        }
        bool known = register.RevisionsOf(last.Job).Any(f => f.Revision == last.Revision);
        if (!known || (last.What == Happening.Cut && Later(register, last) is not null))
        {
            return Stage.Failed<Register>(
                Refused(
                    folder,
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"that block {last.Block} of {last.Job} revision {last.Revision} was {RegisterWords.For(last.What)} cannot be undone: {(known ? $"revision {Later(register, last)!.Revision} was made because of it" : "the job was retired since")}"
                    ),
                    known ? $"note the block as gone: --scrapped {last.Job}" : "see --history"
                )
            );
        }
        // throwing the last block of a revision away has answered its notices right after: they stand again with it
        RegisterEvent[] back = [last, .. standing.Where(e => e.What == Happening.Answered && e.Number > last.Number)];
        Register noted = register;
        foreach (RegisterEvent e in back)
        {
            noted = noted.Noted(occasion, Happening.Undone, e.Job, e.Revision, e.Block, e.Number);
            noted = e.What == Happening.Answered ? NoticeEvents.Reopen(noted, e.Amount) : noted;
        }
        return Stage.Answer(
            last.What == Happening.Answered ? noted : ShelfEvents.Replayed(noted, last.Job, last.Revision, last.Block)
        );
    }

    private static Fixture? Later(Register register, RegisterEvent cut) =>
        register.RevisionsOf(cut.Job).FirstOrDefault(f => f.Revision > cut.Revision);

    private static Finding Refused(string folder, string why, string remedy) =>
        new("undo-refused", Severity.Error, folder, why, remedy);
}

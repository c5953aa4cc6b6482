using FixtureGen.App.Library;
using FixtureGen.App.Page.Serving;
using FixtureGen.App.Records;
using FixtureGen.Model;

namespace FixtureGen.App.Page.Overview;

/// <summary>Notes what somebody says happened to a job's block, by the code of the register's own command.</summary>
internal static class RegisterDesk
{
    /// <summary>Takes back what was noted last in the job's folder.</summary>
    public const string Undo = "undo";

    /// <summary>200 with a line for the person; 400 for a word that is none, 422 where the register refuses.</summary>
    public static PageAnswer Note(string jobPath, NoteQuestion asked)
    {
        string job = Path.GetFileNameWithoutExtension(jobPath);
        bool undo = asked.What == Undo;
        if (!undo && !Noting.Kinds.ContainsKey(asked.What))
        {
            return PageAnswer.NotUnderstood([
                RequestFindings.NotAChoice(
                    "what",
                    asked.What,
                    Noting.Kinds.Keys.Order(StringComparer.Ordinal).Append(Undo)
                ),
            ]);
        }
        if (Wrong(asked) is { } wrong)
        {
            return PageAnswer.NotUnderstood([wrong]);
        }
        Occasion occasion = Occasion.Now(asked.By, asked.Why);
        Noting[] notings = undo
            ? []
            :
            [
                Noting.Kinds[asked.What] with
                {
                    Job = job,
                    Revision = asked.Revision,
                    Block = asked.Block,
                    Amount = asked.Amount ?? 0,
                },
            ];
        Stage<Register> noted = RegisterNotes.Take(
            Path.GetDirectoryName(Path.GetFullPath(jobPath))!,
            [.. notings],
            undo,
            rebuild: null,
            occasion
        );
        return noted.Ok
            ? PageAnswer.Say(
                200,
                new MessageAnswer(undo ? "What was noted last is taken back." : $"Noted for {job}: {asked.What}.")
                {
                    Findings = PageAnswer.Lines(noted.Findings),
                }
            )
            : PageAnswer.Refused(noted.Findings);
    }

    private static Finding? Wrong(NoteQuestion asked)
    {
        int most = RegisterTables.MostCycles;
        return asked.What is "cycles" or "leak" && asked.Amount is not >= 1 || asked.Amount > most
                ? RequestFindings.Beyond("amount", asked.Amount ?? 0, 1, most)
            : asked.Revision is < 1 or > 9999 ? RequestFindings.Beyond("revision", asked.Revision.Value, 1, 9999)
            : asked.Block is < 1 or > 9999 ? RequestFindings.Beyond("block", asked.Block.Value, 1, 9999)
            : null;
    }
}

namespace FixtureGen.App.Records;

/// <summary>What the register holds, column by column, in the order of its readable copy.</summary>
internal static class RegisterTables
{
    /// <summary>More than any block sees.</summary>
    public const int MostCycles = Most;

    private const int MostRevisions = 9999;
    private const int Most = 99999999;

    /// <summary>Fixtures, a row each revision.</summary>
    public static Table<Fixture> Fixtures { get; } =
        new(
            "fixture",
            2,
            [
                new("job", f => f.Job),
                Number<Fixture>("revision", f => f.Revision, 1, MostRevisions),
                new("id", f => f.Id),
                Number<Fixture>("program", f => f.Program, 0, Most),
                new("plate", f => f.Plate),
                Number<Fixture>("plate_revision", f => f.PlateRevision, 0, MostRevisions),
                new("state", f => RegisterWords.For(f.State)) { Words = RegisterWords.States },
                Number<Fixture>("trim", f => f.Trim, 1, MostRevisions) with
                {
                    Missing = 1L,
                },
            ],
            r => new Fixture(
                r.Text("job"),
                r.Text("id"),
                r.Int("revision"),
                r.Int("program"),
                r.Text("plate"),
                r.Int("plate_revision"),
                RegisterWords.State(r.Text("state"))
            )
            {
                Trim = r.Int("trim"),
            }
        );

    /// <summary>Blocks that were cut.</summary>
    public static Table<Block> Blocks { get; } =
        new(
            "block",
            3,
            [
                new("job", b => b.Job),
                Number<Block>("revision", b => b.Revision, 1, MostRevisions),
                Number<Block>("number", b => b.Number, 1, MostRevisions),
                new("state", b => RegisterWords.For(b.State)) { Words = RegisterWords.States.Remove("planned") },
                new("cut_at", b => b.CutAt),
                Number<Block>("trim", b => b.Trim, 1, MostRevisions),
                Number<Block>("cycles", b => b.Cycles, 0, Most),
                Number<Block>("cord_cycles", b => b.CordCycles, 0, Most),
                Number<Block>("leak_pa_per_min", b => b.LeakPaPerMin, 0, Most),
            ],
            r => new Block
            {
                Job = r.Text("job"),
                Revision = r.Int("revision"),
                Number = r.Int("number"),
                State = RegisterWords.State(r.Text("state")),
                CutAt = r.Text("cut_at"),
                Trim = r.Int("trim"),
                Cycles = r.Int("cycles"),
                CordCycles = r.Int("cord_cycles"),
                LeakPaPerMin = r.Int("leak_pa_per_min"),
            }
        );

    /// <summary>The files that blocks on the shelf were cut with, and of every newer trim for them.</summary>
    public static Table<MadeFile> Files { get; } =
        new(
            "file",
            4,
            [
                new("job", f => f.Job),
                Number<MadeFile>("revision", f => f.Revision, 1, MostRevisions),
                Number<MadeFile>("trim", f => f.Trim, 1, MostRevisions),
                new("name", f => f.Name),
                new("sha256", f => f.Sha256),
                Number<MadeFile>("bytes", f => f.Bytes, 0, long.MaxValue),
            ],
            r => new MadeFile(
                r.Text("job"),
                r.Int("revision"),
                r.Int("trim"),
                r.Text("name"),
                r.Text("sha256"),
                r.Long("bytes")
            )
        );

    /// <summary>What somebody must answer, and what was answered.</summary>
    public static Table<Notice> Notices { get; } =
        new(
            "notice",
            1,
            [
                Number<Notice>("number", n => n.Number, 1, Most),
                new("at", n => n.At),
                new("job", n => n.Job),
                Number<Notice>("revision", n => n.Revision, 1, MostRevisions),
                new("what", n => n.What),
                new("answer", n => RegisterWords.For(n.Answer)) { Words = RegisterWords.Answers },
                new("by", n => n.By),
                new("reason", n => n.Reason),
                new("answered_at", n => n.AnsweredAt),
            ],
            r => new Notice
            {
                Number = r.Int("number"),
                At = r.Text("at"),
                Job = r.Text("job"),
                Revision = r.Int("revision"),
                What = r.Text("what"),
                Answer = RegisterWords.Answer(r.Text("answer")),
                By = r.Text("by"),
                Reason = r.Text("reason"),
                AnsweredAt = r.Text("answered_at"),
            }
        );

    /// <summary>What happened, only ever added to.</summary>
    public static Table<RegisterEvent> Events { get; } =
        new(
            "event",
            1,
            [
                Number<RegisterEvent>("number", e => e.Number, 1, int.MaxValue),
                new("at", e => e.At),
                new("who", e => e.Who),
                new("what", e => RegisterWords.For(e.What)) { Words = RegisterWords.Happenings },
                new("job", e => e.Job),
                Number<RegisterEvent>("revision", e => e.Revision, 0, MostRevisions),
                Number<RegisterEvent>("block", e => e.Block, 0, MostRevisions),
                Number<RegisterEvent>("amount", e => e.Amount, 0, int.MaxValue),
                new("why", e => e.Why),
            ],
            r => new RegisterEvent
            {
                Number = r.Int("number"),
                At = r.Text("at"),
                Who = r.Text("who"),
                What = RegisterWords.What(r.Text("what")),
                Job = r.Text("job"),
                Revision = r.Int("revision"),
                Block = r.Int("block"),
                Amount = r.Int("amount"),
                Why = r.Text("why"),
            }
        );

    private static Column<T> Number<T>(string key, Func<T, long> get, long least, long greatest) =>
        new(key, row => get(row))
        {
            IsText = false,
            Least = least,
            Greatest = greatest,
        };
}

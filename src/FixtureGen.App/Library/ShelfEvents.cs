using System.Globalization;
using FixtureGen.App.Records;
using FixtureGen.Model;

namespace FixtureGen.App.Library;

/// <summary>What may happen to the blocks of a job, and what it does to the register.</summary>
internal static class ShelfEvents
{
    /// <summary>
    /// Cut: a block of the newest planned revision, else another one of the newest revision whose blocks are all worn or gone;
    /// as a spare, another one of the newest on the shelf. Worn: the newest good block. Scrapped: the oldest on the shelf.
    /// Cycles, cord and leak: the one block on the shelf, where there are more the one that is named. Failed changes nothing.
    /// </summary>
    public static Stage<Register> Apply(Register register, string folder, Noting noting, Occasion occasion) =>
        noting.What == Happening.Cut ? Cut(register, folder, noting, occasion)
        : noting.What == Happening.Answered ? NoticeEvents.Answer(register, folder, noting, occasion)
        : noting.What == Happening.Retired ? Retiring.Retire(register, folder, noting.Job, occasion)
        : OnBlock(register, folder, noting, occasion);

    private static Stage<Register> Cut(Register register, string folder, Noting noting, Occasion occasion)
    {
        Fixture[] revisions =
        [
            .. register.RevisionsOf(noting.Job).Where(f => noting.Revision is null || f.Revision == noting.Revision),
        ];
        Fixture? planned = revisions.Where(f => f.State == FixtureState.Planned).MaxBy(f => f.Revision);
        Fixture? target =
            noting.Spare ? revisions.Where(f => f.OnShelf).MaxBy(f => f.Revision)
            : planned is not null ? planned
            : revisions.MaxBy(f => f.Revision) is { State: FixtureState.Worn or FixtureState.Scrapped } used ? used
            : null;
        if (target is null)
        {
            return Stage.Failed<Register>(ShelfFindings.NoSuchBlock(register, folder, noting));
        }
        Stage<Register> kept = Freezing.Keep(register, folder, target);
        if (!kept.Ok)
        {
            return kept;
        }
        int number = BlockPast.NextNumber(register, target.Job, target.Revision);
        return Stage.Answer(
            Replayed(
                kept.Value!.Noted(occasion, Happening.Cut, target.Job, target.Revision, number, target.Trim),
                target.Job,
                target.Revision,
                number
            )
        );
    }

    private static Stage<Register> OnBlock(Register register, string folder, Noting noting, Occasion occasion)
    {
        Block[] may =
        [
            .. register.Blocks.Where(b =>
                b.Job == noting.Job
                && b.OnShelf
                && (noting.What != Happening.Worn || b.State == FixtureState.Cut)
                && (noting.Revision is null || b.Revision == noting.Revision)
                && (noting.Block is null || b.Number == noting.Block)
            ),
        ];
        Block? target =
            noting.What == Happening.Worn
                ? may.OrderByDescending(b => b.Revision).ThenBy(b => b.Number).FirstOrDefault()
            : noting.What == Happening.Scrapped ? may.OrderBy(b => b.Revision).ThenBy(b => b.Number).FirstOrDefault()
            : may.Length == 1 ? may[0]
            : null;
        if (target is null)
        {
            return Stage.Failed<Register>(
                may.Length > 1
                    ? ShelfFindings.WhichBlock(noting.Job, may)
                    : ShelfFindings.NoSuchBlock(register, folder, noting)
            );
        }
        int amount = noting.What == Happening.Cord ? target.CordCycles : noting.Amount;
        if (noting.What == Happening.Cycles && (long)target.Cycles + amount > RegisterTables.MostCycles)
        {
            return Stage.Failed<Register>(ShelfFindings.TooMany(noting.Job, target.Cycles, amount));
        }
        Register next = Replayed(
            register.Noted(occasion, noting.What, target.Job, target.Revision, target.Number, amount),
            target.Job,
            target.Revision,
            target.Number
        );
        bool gone = next.BlocksOf(target.Job, target.Revision).All(b => !b.OnShelf);
        return Stage.Answer(
            noting.What == Happening.Scrapped && gone
                ? NoticeEvents.ScrappedWith(next, target.Job, target.Revision, occasion)
                : next
        );
    }

    /// <summary>The register with a block as its events now tell it.</summary>
    internal static Register Replayed(Register register, string job, int revision, int number) =>
        BlockPast.Replay(register, job, revision, number) is { } block ? register.With(block)
        : register.BlocksOf(job, revision).FirstOrDefault(b => b.Number == number) is { } gone ? register.Without(gone)
        : throw new InvalidOperationException(
            string.Create(CultureInfo.InvariantCulture, $"{job} r{revision} block {number} was never cut")
        );
}

using FixtureGen.App.Records;

namespace FixtureGen.App.Library;

/// <summary>What a run came to, brought into the register.</summary>
internal static class Settlement
{
    /// <summary>The register with every job that was made or is up to date as it now is, what happened to it, and the notices that blocks on the shelf need.</summary>
    public static Register Settle(Register register, IReadOnlyCollection<JobChange> changes, Occasion occasion)
    {
        Register next = register;
        List<Fixture> entries = [];
        HashSet<Fixture> replaced = [];
        List<(JobChange Change, Fixture Entry)> files = [];
        foreach (JobChange c in changes.Where(c => c.Result is JobResult.Made or JobResult.Unchanged))
        {
            Fixture? same = register.RevisionsOf(c.Job).FirstOrDefault(f => f.Revision == c.Revision);
            Fixture? current = register.Current(c.Job);
            if (same is null && current is { State: FixtureState.Planned } && current.Revision < c.Revision)
            {
                // A revision that was never cut is replaced by its successor.
                replaced.Add(current);
                next = next.Noted(
                    occasion,
                    Happening.Replaced,
                    c.Job,
                    current.Revision,
                    amount: c.Revision,
                    why: c.Why
                );
            }
            Fixture entry = Entry(c, same);
            entries.Add(entry);
            if (c.Files.Length > 0 && (!entry.OnShelf || same?.Trim != entry.Trim))
            {
                files.Add((c, entry));
            }
            if (c.Result == JobResult.Made && (c.Reload.Length > 0 || same?.Plate.Length is null or 0))
            {
                Happening what = entry.OnShelf ? Happening.Retrimmed : Happening.Made;
                next = next.Noted(occasion, what, c.Job, c.Revision, amount: entry.Trim, why: c.Why);
            }
        }
        next = (
            next with
            {
                Fixtures = [.. next.Fixtures.Where(f => !replaced.Contains(f))],
                Files = [.. next.Files.Where(m => !replaced.Any(f => (f.Job, f.Revision) == (m.Job, m.Revision)))],
            }
        )
            .With(entries)
            .With([.. files.Select(f => f.Entry)], files.SelectMany(f => f.Change.Files));
        foreach (JobChange c in changes)
        {
            foreach (Misfit misfit in c.Misfits)
            {
                Fixture block = next.RevisionsOf(c.Job).First(f => f.Revision == misfit.Revision);
                next = NoticeEvents.Give(next, block, misfit.What, occasion);
            }
        }
        return next;
    }

    private static Fixture Entry(JobChange c, Fixture? same)
    {
        Fixture entry =
            same
            ?? new Fixture(c.Job, c.FixtureId, c.Revision, c.Program, c.Plate, c.PlateRevision, FixtureState.Planned);
        return entry.OnShelf
            ? entry with
            {
                Trim = c.Trim,
            }
            : entry with
            {
                Plate = c.Plate,
                PlateRevision = c.PlateRevision,
                Program = c.Program,
                Id = c.FixtureId,
                Trim = c.Trim,
            };
    }
}

using System.Globalization;
using FixtureGen.App.Records;
using FixtureGen.Model;

namespace FixtureGen.App.Library;

/// <summary>Takes a job that is not made any more out of the register and frees its numbers; its past stays in the events.</summary>
internal static class Retiring
{
    /// <summary>Refused while a block of it is on the shelf, or its job file lies there and would be numbered again.</summary>
    public static Stage<Register> Retire(Register register, string folder, string job, Occasion occasion)
    {
        Fixture[] revisions = [.. register.RevisionsOf(job)];
        if (revisions.Length == 0)
        {
            return Stage.Failed<Register>(
                ShelfFindings.NoSuchBlock(register, folder, new Noting(job, Happening.Retired))
            );
        }
        if (revisions.FirstOrDefault(f => f.OnShelf) is { } block)
        {
            return Stage.Failed<Register>(
                Refused(
                    job,
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"a block of revision {block.Revision}, number {block.Program}, is on the shelf"
                    ),
                    $"scrap it first: 'fixturegen register {folder} --scrapped {job}'"
                )
            );
        }
        if (File.Exists(Path.Combine(folder, job + ".toml")))
        {
            return Stage.Failed<Register>(
                Refused(
                    job,
                    "its job file still lies in the folder and would be numbered again",
                    $"take {job}.toml and its drawing away first"
                )
            );
        }
        string what = string.Join(
            ", ",
            revisions.Select(f => string.Create(CultureInfo.InvariantCulture, $"{f.Id} r{f.Revision} {f.Program}"))
        );
        return Stage.Answer(
            (
                register with
                {
                    Fixtures = [.. register.Fixtures.Where(f => f.Job != job)],
                    Blocks = [.. register.Blocks.Where(b => b.Job != job)],
                    Files = [.. register.Files.Where(m => m.Job != job)],
                }
            ).Noted(occasion, Happening.Retired, job, why: occasion.Why.Length > 0 ? $"{occasion.Why} ({what})" : what)
        );
    }

    private static Finding Refused(string job, string why, string remedy) =>
        new("retire-refused", Severity.Error, job, why, remedy);
}

using System.Globalization;
using FixtureGen.App.Records;
using FixtureGen.Model;
using FixtureGen.Shop.Reading;

namespace FixtureGen.App.Library;

/// <summary>Why something cannot be noted of a block.</summary>
internal static class ShelfFindings
{
    /// <summary>No block, or none in the state that it needs.</summary>
    public static Finding NoSuchBlock(Register register, string folder, Noting noting)
    {
        string job = noting.Job;
        string[] has =
        [
            .. register
                .RevisionsOf(job)
                .Select(f =>
                    string.Create(CultureInfo.InvariantCulture, $"revision {f.Revision} {RegisterWords.For(f.State)}")
                ),
        ];
        string becomes =
            noting.Spare ? "have a spare"
            : noting.What is Happening.Cut or Happening.Worn or Happening.Scrapped
                ? $"become {RegisterWords.For(noting.What)}"
            : $"have {RegisterWords.For(noting.What)} noted";
        string what =
            has.Length == 0
                ? "the register has no such job"
                : $"no revision of it can {becomes} (it has: {string.Join(", ", has)})";
        bool good = register.RevisionsOf(job).Any(f => f.State == FixtureState.Cut);
        return new(
            "register-no-such-block",
            Severity.Error,
            job,
            what,
            has.Length == 0 ? WhichJob(register, folder, job)
                : noting is { What: Happening.Cut, Spare: false } && good
                    ? $"a second block of the same revision is noted by 'fixturegen register {folder} --spare {job}'"
                : noting.What == Happening.Cut || register.RevisionsOf(job).All(f => f.State != FixtureState.Planned)
                    ? $"'fixturegen regenerate {folder}' makes a revision that can be cut"
                : $"note the block as cut first: 'fixturegen register {folder} --cut {job}'"
        );
    }

    /// <summary>Several blocks could be meant.</summary>
    public static Finding WhichBlock(string job, IEnumerable<Block> blocks) =>
        new(
            "register-which-block",
            Severity.Error,
            job,
            "it has several blocks on the shelf: "
                + string.Join(
                    ", ",
                    blocks.Select(b =>
                        string.Create(CultureInfo.InvariantCulture, $"revision {b.Revision} block {b.Number}")
                    )
                ),
            "say which with --revision and --block"
        );

    /// <summary>More cycles than any block sees.</summary>
    public static Finding TooMany(string job, int had, int more) =>
        new(
            "register-amount",
            Severity.Error,
            job,
            string.Create(
                CultureInfo.InvariantCulture,
                $"{had} cycles and {more} more are over {RegisterTables.MostCycles}"
            ),
            "check the number of parts"
        );

    /// <summary>The job whose block bears that fixture id, else the jobs that there are.</summary>
    private static string WhichJob(Register register, string folder, string name)
    {
        const int Most = 8;
        if (register.Fixtures.FirstOrDefault(f => f.Id == name) is { } bearer)
        {
            return $"fixture {name} is of the job {bearer.Job}: name that";
        }
        string[] jobs = [.. register.Fixtures.Select(f => f.Job).Distinct(StringComparer.Ordinal)];
        if (Nearest.Find(name, jobs) is { } near)
        {
            return $"did you mean {near}?";
        }
        string there = string.Join(", ", jobs.Take(Most)) + (jobs.Length > Most ? ", ..." : "");
        return jobs.Length == 0
            ? $"run 'fixturegen regenerate {folder}' first"
            : $"name one of {there}; 'fixturegen regenerate {folder}' registers a new job";
    }
}

using System.Collections.Immutable;
using System.Globalization;

namespace FixtureGen.App.Records;

/// <summary>
/// Gives out base program numbers and fixture ids in sorted order, before any work is shared, so that the number of
/// workers never shows. A job's programs take N (trim), N + 1 (top) and N + 2 (underside).
/// </summary>
internal static class Numbering
{
    private const int First = 1000;
    private const int Step = 10;

    /// <summary>The register with an entry, state planned, for every job that has none. Stated gives the numbers that jobs fix themselves.</summary>
    public static Register Claim(
        Register register,
        IEnumerable<string> jobs,
        IReadOnlyDictionary<string, int> stated,
        Occasion occasion
    )
    {
        HashSet<int> taken = Decades(register, stated);
        List<Fixture> claimed = [];
        int from = First;
        foreach (
            string job in jobs.Where(j => register.Current(j) is null)
                .Distinct(StringComparer.Ordinal)
                .Order(StringComparer.Ordinal)
        )
        {
            int number = stated.TryGetValue(job, out int own) ? own : from = Free(taken, from);
            taken.Add(number / Step);
            claimed.Add(new Fixture(job, Id(number), 1, number, "", 0, FixtureState.Planned));
        }
        return claimed.Count == 0
            ? register
            : claimed.Aggregate(
                register.With(claimed),
                (r, f) => r.Noted(occasion, Happening.Numbered, f.Job, f.Revision, amount: f.Program)
            );
    }

    /// <summary>Numbers that nobody has, one for each of these jobs by sorted name: for new revisions whose older blocks are still on the shelf.</summary>
    public static IReadOnlyDictionary<string, int> Spare(
        Register register,
        IReadOnlyDictionary<string, int> stated,
        IEnumerable<string> jobs
    )
    {
        HashSet<int> taken = Decades(register, stated);
        Dictionary<string, int> spare = new(StringComparer.Ordinal);
        foreach (string job in jobs.Order(StringComparer.Ordinal))
        {
            int number = Free(taken, First);
            taken.Add(number / Step);
            spare.Add(job, number);
        }
        return spare;
    }

    /// <summary>F and the base number: F1010.</summary>
    public static string Id(int number) => "F" + number.ToString(CultureInfo.InvariantCulture);

    /// <summary>Numbers that the jobs of a folder state themselves, by job.</summary>
    public static IReadOnlyDictionary<string, int> Stated(IEnumerable<string> jobFiles)
    {
        ImmutableDictionary<string, int>.Builder stated = ImmutableDictionary.CreateBuilder<string, int>(
            StringComparer.Ordinal
        );
        foreach (string file in jobFiles)
        {
            foreach (string line in File.ReadLines(file).TakeWhile(l => !l.TrimStart().StartsWith('[')))
            {
                string[] parts = line.Split('#')[0].Split('=', 2, StringSplitOptions.TrimEntries);
                if (
                    parts.Length == 2
                    && parts[0] == "program"
                    && int.TryParse(parts[1], NumberStyles.None, CultureInfo.InvariantCulture, out int number)
                )
                {
                    stated[Path.GetFileNameWithoutExtension(file)] = number;
                }
            }
        }
        return stated.ToImmutable();
    }

    private static HashSet<int> Decades(Register register, IReadOnlyDictionary<string, int> stated) =>
        [.. register.Fixtures.Select(f => f.Program / Step), .. stated.Values.Select(n => n / Step)];

    private static int Free(HashSet<int> taken, int from)
    {
        int number = from;
        while (taken.Contains(number / Step))
        {
            number += Step;
        }
        return number;
    }
}

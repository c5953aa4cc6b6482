using System.Globalization;
using FixtureGen.Toolpaths;

namespace FixtureGen.App.Records;

/// <summary>
/// Gives out base program numbers and fixture ids in sorted order, before any work is shared, so that the number of workers
/// never shows. A job's programs take N (trim), N + 1 (top) and N + 2 (underside). Tens are given out first, since they are
/// easy to read; where a range has none left, any three in a row.
/// </summary>
internal static class Numbering
{
    private const int Step = 10;

    /// <summary>
    /// The register with an entry, state planned, for every job that has none. Others are base numbers that jobs of other
    /// folders have. A job for which its range has no number left gets none.
    /// </summary>
    public static Register Claim(
        Register register,
        IReadOnlyCollection<NumberWish> wishes,
        IEnumerable<int> others,
        Occasion occasion
    )
    {
        SortedSet<int> taken = Taken(register, wishes, others);
        List<Fixture> claimed = [];
        foreach (
            NumberWish wish in wishes
                .Where(w => register.Current(w.Job) is null)
                .DistinctBy(w => w.Job, StringComparer.Ordinal)
                .OrderBy(w => w.Job, StringComparer.Ordinal)
        )
        {
            if ((wish.Stated ?? Free(taken, wish.Range)) is { } number)
            {
                taken.Add(number);
                claimed.Add(new Fixture(wish.Job, Id(number), 1, number, "", 0, FixtureState.Planned));
            }
        }
        return claimed.Count == 0
            ? register
            : claimed.Aggregate(
                register.With(claimed),
                (r, f) => r.Noted(occasion, Happening.Numbered, f.Job, f.Revision, amount: f.Program, why: "")
            );
    }

    /// <summary>Numbers that nobody has, one for each of these jobs by sorted name: for new revisions whose older blocks are still on the shelf.</summary>
    public static IReadOnlyDictionary<string, int> Spare(
        Register register,
        IReadOnlyCollection<NumberWish> wishes,
        IEnumerable<int> others,
        IEnumerable<string> jobs
    )
    {
        SortedSet<int> taken = Taken(register, wishes, others);
        Dictionary<string, int> spare = new(StringComparer.Ordinal);
        foreach (string job in jobs.Order(StringComparer.Ordinal))
        {
            if (Free(taken, wishes.First(w => w.Job == job).Range) is { } number)
            {
                taken.Add(number);
                spare.Add(job, number);
            }
        }
        return spare;
    }

    /// <summary>F and the base number: F1010.</summary>
    public static string Id(int number) => "F" + number.ToString(CultureInfo.InvariantCulture);

    private static SortedSet<int> Taken(Register register, IEnumerable<NumberWish> wishes, IEnumerable<int> others) =>
        [.. register.Fixtures.Select(f => f.Program), .. wishes.Select(w => w.Stated).OfType<int>(), .. others];

    /// <summary>The lowest free number of the range, a ten where there is one; null where all three in a row meet somebody's.</summary>
    private static int? Free(SortedSet<int> taken, NumberRange range)
    {
        const int Around = ProgramNumbers.PerJob - 1;
        int last = range.Last - Around;
        int tens = (range.First + Step - 1) / Step * Step;
        for (long n = tens; n <= last; n += Step)
        {
            int number = (int)n;
            if (taken.GetViewBetween(number - Around, number + Step - 1).Count == 0)
            {
                return number;
            }
        }
        for (long n = range.First; n <= last; n++)
        {
            int number = (int)n;
            if (taken.GetViewBetween(number - Around, number + Around).Count == 0)
            {
                return number;
            }
        }
        return null;
    }
}

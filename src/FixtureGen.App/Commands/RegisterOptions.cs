using System.Collections.Immutable;
using System.CommandLine;
using FixtureGen.App.Library;
using FixtureGen.App.Records;

namespace FixtureGen.App.Commands;

/// <summary>The options of <c>register</c> by which something is noted, in the order they are carried out.</summary>
internal sealed class RegisterOptions
{
    private readonly Option<string?> _cut = ForJob("--cut", "a block of this job's newest revision was cut: freeze it");
    private readonly Option<string?> _spare = ForJob(
        "--spare",
        "another block of this job's revision on the shelf was cut"
    );
    private readonly Option<string?> _worn = ForJob("--worn", "the block of this job is worn: due for a remake");
    private readonly Option<string?> _scrapped = ForJob(
        "--scrapped",
        "the oldest block of this job on the shelf was thrown away"
    );
    private readonly Option<string?> _cycles = ForJob(
        "--cycles",
        "parts were trimmed on its block: --amount says how many"
    );
    private readonly Option<string?> _cord = ForJob("--cord", "the cord of its block was changed");
    private readonly Option<string?> _leak = ForJob(
        "--leak",
        "the leak of its block was read: --amount in Pa a minute"
    );
    private readonly Option<string?> _accept = ForJob(
        "--accept",
        "its block is used on in spite of a notice: say --why"
    );
    private readonly Option<string?> _recut = ForJob(
        "--recut",
        "its block will be cut anew because of a notice: say --why"
    );
    private readonly Option<string?> _retire = ForJob("--retire", "the job is made no more: free its numbers");
    private readonly Option<int?> _amount = Whole("--amount", 1, RegisterTables.MostCycles, "for --cycles and --leak");
    private readonly Option<int?> _revision = Whole("--revision", 1, 9999, "which revision, where there are several");
    private readonly Option<int?> _block = Whole("--block", 1, 9999, "which block of the revision");
    private readonly Option<string?> _by = new("--by")
    {
        HelpName = "NAME",
        Description = "who notes it (default: the user's name)",
    };
    private readonly Option<string?> _why = new("--why")
    {
        HelpName = "TEXT",
        Description = "the reason, kept for good",
    };

    /// <summary>All of them, for the command.</summary>
    public IEnumerable<Option> All =>
        [
            _cut,
            _spare,
            _worn,
            _scrapped,
            _cycles,
            _cord,
            _leak,
            _accept,
            _recut,
            _retire,
            _amount,
            _revision,
            _block,
            _by,
            _why,
        ];

    /// <summary>What was asked to be noted; empty where nothing was.</summary>
    public ImmutableArray<Noting> Notings(ParseResult parsed)
    {
        (Option<string?> Option, Noting Kind)[] kinds =
        [
            .. new[] { _cut, _spare, _worn, _scrapped, _cycles, _cord, _leak, _accept, _recut, _retire }.Select(o =>
                (o, Noting.Kinds[o.Name.TrimStart('-')])
            ),
        ];
        return
        [
            .. kinds
                .Where(k => parsed.GetValue(k.Option) is not null)
                .Select(k =>
                    k.Kind with
                    {
                        Job = Bare(parsed.GetValue(k.Option)!),
                        Revision = parsed.GetValue(_revision),
                        Block = parsed.GetValue(_block),
                        Amount = parsed.GetValue(_amount) ?? 0,
                    }
                ),
        ];
    }

    /// <summary>When, by whom and why.</summary>
    public Occasion Occasion(ParseResult parsed) => Records.Occasion.Now(parsed.GetValue(_by), parsed.GetValue(_why));

    /// <summary>What is wrong with the options together; null where nothing is.</summary>
    public static string? Wrong(ImmutableArray<Noting> notings) =>
        notings.Any(n => n.What is Happening.Cycles or Happening.Leak && n.Amount == 0)
            ? "--cycles and --leak need --amount"
            : null;

    private static Option<string?> ForJob(string name, string description) =>
        new(name) { HelpName = "JOB", Description = description };

    private static Option<int?> Whole(string name, int least, int greatest, string description)
    {
        Option<int?> option = new(name) { HelpName = "N", Description = description };
        option.Validators.Add(r =>
        {
            if (
                r.Tokens.Count > 0
                && (
                    !int.TryParse(
                        r.Tokens[0].Value,
                        System.Globalization.NumberStyles.None,
                        System.Globalization.CultureInfo.InvariantCulture,
                        out int n
                    )
                    || n < least
                    || n > greatest
                )
            )
            {
                r.AddError(FormattableString.Invariant($"{name} takes a whole number from {least} to {greatest}"));
            }
        });
        return option;
    }

    private static string Bare(string job) =>
        job.EndsWith(".toml", StringComparison.OrdinalIgnoreCase) ? Path.GetFileNameWithoutExtension(job) : job;
}

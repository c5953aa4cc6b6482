using System.Collections.Immutable;
using System.Text.Json.Nodes;
using FixtureGen.App.Records;

namespace FixtureGen.App.Library.Changes;

/// <summary>
/// A block that a notice says to cut anew and what that costs: Shelf is the revision on the shelf, Revision the one to cut; minutes
/// of its block programs, cord in mm, magnets, blank, and the programs to load.
/// </summary>
internal sealed record RecutRow
{
    /// <summary>The job.</summary>
    public required string Job { get; init; }

    /// <summary>Of the block that no longer fits.</summary>
    public required int Shelf { get; init; }

    /// <summary>Of the block to cut.</summary>
    public required int Revision { get; init; }

    /// <summary>Its trim program's number.</summary>
    public required int Program { get; init; }

    /// <summary>Machine time of the block's own programs.</summary>
    public required double Minutes { get; init; }

    /// <summary>Of all loops.</summary>
    public required double CordMm { get; init; }

    /// <summary>Discs for the block.</summary>
    public required int Magnets { get; init; }

    /// <summary>The stock.</summary>
    public required string Blank { get; init; }

    /// <summary>Programs that changed, as a list in words.</summary>
    public required string Load { get; init; }

    /// <summary>A row each block, those that nobody has answered for first. A job that this run refused has no figures and no row: its notice stands above.</summary>
    public static ImmutableArray<RecutRow> List(ImmutableArray<Notice> notices, ImmutableArray<JobChange> changes)
    {
        Dictionary<string, JobChange> byJob = changes
            .Where(c => c.After is not null)
            .ToDictionary(c => c.Job, StringComparer.Ordinal);
        return
        [
            .. notices
                .OrderBy(n => n.Answer)
                .ThenBy(n => n.Number)
                .DistinctBy(n => (n.Job, n.Revision))
                .Where(n => byJob.ContainsKey(n.Job))
                .Select(n => From(n, byJob[n.Job])),
        ];
    }

    /// <summary>The same for the change report.</summary>
    public JsonObject Json() =>
        new()
        {
            ["job"] = Job,
            ["shelfRevision"] = Shelf,
            ["revision"] = Revision,
            ["programNumber"] = Program,
            ["minutes"] = Minutes,
            ["cordMm"] = CordMm,
            ["magnets"] = Magnets,
            ["blank"] = Blank,
        };

    private static RecutRow From(Notice n, JobChange c) =>
        new()
        {
            Job = n.Job,
            Shelf = n.Revision,
            Revision = c.Revision,
            Program = c.Program,
            Minutes = c.After!.BlockMinutes,
            CordMm = c.After.CordMm,
            Magnets = c.After.Magnets,
            Blank = c.After.Blank,
            Load = string.Join(", ", c.Reload),
        };
}

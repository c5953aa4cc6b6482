using System.Collections.Immutable;
using FixtureGen.App.Records;
using FixtureGen.Output.Reports;

namespace FixtureGen.App.Library;

/// <summary>How a job came out of a regeneration.</summary>
internal enum JobResult
{
    /// <summary>It was stale and is made again; on a dry run it would be.</summary>
    Made,

    /// <summary>What was there is what would be made.</summary>
    Unchanged,

    /// <summary>An error is among its findings; the files that were there are kept.</summary>
    Refused,

    /// <summary>Not reached: the run was stopped before.</summary>
    Stopped,
}

/// <summary>
/// What a report says in few numbers: cutting minutes of all programs, the holding factors, and what a block costs (minutes of
/// its own programs, cord in mm, magnets, blank). Kept instead of the report, so that memory does not grow with the library.
/// </summary>
internal sealed record JobFigures(
    double Minutes,
    double? VacuumOnly,
    double? MagnetsStopping,
    double? Both,
    double BlockMinutes,
    double CordMm,
    int Magnets,
    string Blank
)
{
    /// <summary>Null for no report; minutes are 0 and factors null where the report was refused before it had them.</summary>
    public static JobFigures? From(Report? report) =>
        report is null
            ? null
            : new(
                report.Programs?.Sum(p => p.Minutes) ?? 0,
                report.Holding?.VacuumOnly.Factor,
                report.Holding?.MagnetsStopping.Factor,
                report.Holding?.Both.Factor,
                report.Programs?.Where(p => p.Setup != "trim").Sum(p => p.Minutes) ?? 0,
                report.Features?.CordLengthMm ?? 0,
                report.Features?.Magnets.Count ?? 0,
                report.Placement?.Blank ?? ""
            );
}

/// <summary>A revision on the shelf whose block no longer fits, and why, with the amount.</summary>
internal sealed record Misfit(int Revision, string What);

/// <summary>
/// What a regeneration did to one job. Before is null for a new one, After for a refused one. Moved names what changed in
/// words with amounts; Reload the programs that differ; Misfits which blocks on the shelf no longer fit;
/// PlateUnrevised is true where the plate's file and the programs differ and the plate's revision does not.
/// </summary>
internal sealed record JobChange
{
    /// <summary>The finding of a job that was not made because of a fault of our own.</summary>
    public const string FaultCode = "internal-fault";

    /// <summary>The job file's name without .toml.</summary>
    public required string Job { get; init; }

    /// <summary>Path of the job below the library.</summary>
    public required string JobFile { get; init; }

    /// <summary>What became of it.</summary>
    public required JobResult Result { get; init; }

    /// <summary>What changed that it was looked at again; empty where nothing did.</summary>
    public required string Why { get; init; }

    /// <summary>The revision that it is made under.</summary>
    public required int Revision { get; init; }

    /// <summary>Number of its trim program.</summary>
    public required int Program { get; init; }

    /// <summary>The fixture's name.</summary>
    public required string FixtureId { get; init; }

    /// <summary>The plate that it is made for.</summary>
    public required string Plate { get; init; }

    /// <summary>Of that plate.</summary>
    public required int PlateRevision { get; init; }

    /// <summary>Its figures as they were; null where it was never made.</summary>
    public required JobFigures? Before { get; init; }

    /// <summary>Its figures now; null where it was refused.</summary>
    public required JobFigures? After { get; init; }

    /// <summary>Features that lie elsewhere than before.</summary>
    public required ImmutableArray<string> Moved { get; init; }

    /// <summary>Program files that the machine must be given again.</summary>
    public required ImmutableArray<string> Reload { get; init; }

    /// <summary>Every revision on the shelf whose block no longer fits, with why; also where this run made nothing.</summary>
    public required ImmutableArray<Misfit> Misfits { get; init; }

    /// <summary>The trim's own revision for its block.</summary>
    public required int Trim { get; init; }

    /// <summary>All that was found.</summary>
    public required ImmutableArray<FindingLine> Findings { get; init; }

    /// <summary>The preview as it was.</summary>
    public required string? PictureBefore { get; init; }

    /// <summary>The preview now.</summary>
    public required string? PictureAfter { get; init; }

    /// <summary>Its files as they were made, with their hashes; empty where nothing was.</summary>
    public ImmutableArray<MadeFile> Files { get; init; } = [];

    /// <summary>True where the plate changed under its old revision.</summary>
    public bool PlateUnrevised { get; init; }
}

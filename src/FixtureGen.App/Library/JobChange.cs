using System.Collections.Immutable;
using FixtureGen.Output.Reports;

namespace FixtureGen.App.Library;

/// <summary>How a job came out of a regeneration.</summary>
public enum JobResult
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

/// <summary>What a report says in few numbers: cutting minutes of all programs and the holding factors. Kept instead of the report, so that memory does not grow with the library.</summary>
public sealed record JobFigures(double Minutes, double? VacuumOnly, double? MagnetsStopping, double? Both)
{
    /// <summary>Null for no report; minutes are 0 and factors null where the report was refused before it had them.</summary>
    public static JobFigures? From(Report? report) =>
        report is null
            ? null
            : new(
                report.Programs?.Sum(p => p.Minutes) ?? 0,
                report.Holding?.VacuumOnly.Factor,
                report.Holding?.MagnetsStopping.Factor,
                report.Holding?.Both.Factor
            );
}

/// <summary>
/// What a regeneration did to one job. Before is null for a new one, After for a refused one. Moved names what changed in
/// words with amounts; Reload the programs that differ; Scrap says why a block on the shelf no longer fits, else null;
/// PlateUnrevised is true where the plate's file and the programs differ and the plate's revision does not.
/// </summary>
public sealed record JobChange(
    string Job,
    string JobFile,
    JobResult Result,
    string Why,
    int Revision,
    int Program,
    string FixtureId,
    string Plate,
    int PlateRevision,
    JobFigures? Before,
    JobFigures? After,
    ImmutableArray<string> Moved,
    ImmutableArray<string> Reload,
    string? Scrap,
    ImmutableArray<FindingLine> Findings,
    string? PictureBefore,
    string? PictureAfter,
    bool PlateUnrevised = false
);

using System.Collections.Immutable;
using FixtureGen.App.Files;
using FixtureGen.App.Records;
using FixtureGen.Model;
using FixtureGen.Output;

namespace FixtureGen.App.Library;

/// <summary>
/// One job made under a number of its own: the number is claimed in the register before the files take their place, so that two
/// that are made at once in a fresh folder never get the same.
/// </summary>
internal static class Making
{
    /// <summary>How long another run may take to write before this one gives up.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(5);

    /// <summary>How often a number may be taken by another run while this one works, before it gives up.</summary>
    private const int Tries = 5;

    /// <summary>The job that was made; failed where its files cannot be read, and then there is no outcome.</summary>
    internal sealed record Made(Stage<JobSource> Source, Outcome? Outcome, ImmutableArray<Finding> Trouble)
    {
        /// <summary>True where the files may take their place.</summary>
        public bool Ok => Outcome is { Report.Ok: true } && Trouble.All(f => f.Severity != Severity.Error);
    }

    /// <summary>Makes a job and claims its number. Nothing is written but the register, and that only where all is well.</summary>
    public static Made Run(string jobPath, Action<string> progress)
    {
        Made made;
        int tries = 0;
        do
        {
            Stage<JobSource> source = JobSource.Read(jobPath);
            if (!source.Ok)
            {
                return new(source, null, []);
            }
            Outcome outcome = Delivery.Make(source.Value!.Request(plateFile: null, progress));
            made = new(source, outcome, []);
            if (!outcome.Report.Ok)
            {
                return made;
            }
            if (FrozenBlock.Conflict(source.Value, outcome) is { } frozen)
            {
                return made with { Trouble = [frozen] };
            }
            if (Claim(source.Value, outcome) is { } trouble)
            {
                return made with { Trouble = trouble };
            }
        } while (++tries < Tries);
        return made with { Trouble = [RegisterFindings.Busy(Path.Combine(Folder(jobPath), Register.FileName))] };
    }

    /// <summary>Empty when claimed, with findings when refused, null where another run has taken the number meanwhile.</summary>
    private static ImmutableArray<Finding>? Claim(JobSource job, Outcome outcome)
    {
        Occasion occasion = Occasion.Now(null, null);
        string folder = Folder(job.JobPath);
        Stage<RegisterFile> held = RegisterFile.Hold(folder, Patience);
        if (!held.Ok)
        {
            return held.Findings;
        }
        using RegisterFile file = held.Value!;
        Stage<Register> open = file.Open(occasion);
        Stage<Register> claimed = open.Ok ? LibraryNumbers.Claimed(folder, job.JobPath, open.Value!, occasion) : open;
        if (!claimed.Ok)
        {
            return claimed.Findings;
        }
        Fixture current = claimed.Value!.Current(job.Name)!;
        if (claimed.Value.AsRegistered(current) != job.Registered)
        {
            return null;
        }
        return file.Write(Entered(open.Value!, current, outcome, occasion)) is { } trouble ? [trouble] : [];
    }

    private static Register Entered(Register register, Fixture current, Outcome outcome, Occasion occasion)
    {
        Job job = outcome.Job!;
        if (register.RevisionsOf(job.Name).Any(f => f.OnShelf && f.Revision == job.Revision))
        {
            return register;
        }
        Fixture entry = current with
        {
            Revision = job.Revision,
            Program = job.ProgramNumber ?? current.Program,
            Id = job.FixtureId,
            Plate = job.Plate.Name,
            PlateRevision = job.Plate.Revision,
        };
        ImmutableArray<MadeFile> files = MadeFiles.From(entry, outcome.Files);
        if (files.SequenceEqual(register.FilesOf(entry)) && register.RevisionsOf(job.Name).Contains(entry))
        {
            return register;
        }
        Register next = register with
        {
            Fixtures =
            [
                .. register.Fixtures.Where(f =>
                    f.Job != job.Name || f.State != FixtureState.Planned || f.Revision == entry.Revision
                ),
            ],
        };
        if (register.Current(job.Name) is null)
        {
            next = next.Noted(occasion, Happening.Numbered, job.Name, entry.Revision, amount: entry.Program);
        }
        return next.With(entry)
            .With([entry], files)
            .Noted(occasion, Happening.Made, job.Name, entry.Revision, amount: entry.Trim, why: "make");
    }

    private static string Folder(string jobPath) => Path.GetDirectoryName(Path.GetFullPath(jobPath))!;
}

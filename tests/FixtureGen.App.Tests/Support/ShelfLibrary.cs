using System.Text.Json;
using FixtureGen.App.Files;
using FixtureGen.App.Library;
using FixtureGen.App.Records;
using FixtureGen.Model;
using FixtureGen.Output;
using FixtureGen.Output.Reports;

namespace FixtureGen.App.Tests.Support;

/// <summary>
/// A library whose jobs were "made" by writing small files with a report, so that registers can be tried by the thousand: what
/// the register and the shelf do does not depend on what the programs say.
/// </summary>
internal sealed class ShelfLibrary : IDisposable
{
    public ShelfLibrary()
    {
        Directory.CreateDirectory(Path.Combine(Root, "templates"));
        Directory.CreateDirectory(Jobs);
    }

    public string Root { get; } = Directory.CreateTempSubdirectory("fixturegen-shelf-").FullName;

    public string Jobs => Path.Combine(Root, "outlines");

    public string Copy => Path.Combine(Jobs, Register.FileName);

    public string Database => Path.Combine(Jobs, Register.DatabaseName);

    public static Occasion At(int minute, string why = "") =>
        new(FormattableString.Invariant($"2026-11-30T08:{minute % 60:00}:00Z"), "Ada", why);

    /// <summary>Opens, changes and writes the register as a command does; findings where it was refused.</summary>
    public IReadOnlyList<Finding> Change(Func<Register, Stage<Register>> change, int minute = 0)
    {
        using RegisterFile file = RegisterFile.Hold(Jobs, TimeSpan.Zero).Value!;
        Stage<Register> open = file.Open(At(minute));
        if (!open.Ok)
        {
            return open.Findings;
        }
        Stage<Register> changed = change(open.Value!);
        return !changed.Ok ? changed.Findings
            : file.Write(changed.Value!) is { } trouble ? [trouble]
            : [];
    }

    /// <summary>Notes one thing.</summary>
    public IReadOnlyList<Finding> Note(Noting noting, string why = "") =>
        Change(r => ShelfEvents.Apply(r, Jobs, noting, At(1, why)));

    public Register Read() => RegisterFile.Read(Jobs).Value!;

    /// <summary>Makes a revision: its files lie in out/JOB and the register has it as planned.</summary>
    public void Make(string job, int revision, int program)
    {
        string folder = Path.Combine(Root, "out", job);
        if (Directory.Exists(folder))
        {
            Directory.Delete(folder, recursive: true);
        }
        Directory.CreateDirectory(folder);
        byte[] top = System.Text.Encoding.ASCII.GetBytes(FormattableString.Invariant($"({job} {revision})\nM30\n"));
        File.WriteAllBytes(Path.Combine(folder, job + ".top.nc"), top);
        Report report = new()
        {
            Job = job,
            Ok = true,
            Findings = [],
            Generator = "1",
            Revision = revision,
            Files =
            [
                new FileFacts(job + ".top.nc", top.Length, Delivery.Hash(new OutputFile(job + ".top.nc", [.. top]))),
            ],
        };
        File.WriteAllBytes(
            Path.Combine(folder, job + ".report.json"),
            JsonSerializer.SerializeToUtf8Bytes(report, ReportJson.Default.Report)
        );
        Fixture fixture = new(job, Numbering.Id(program), revision, program, "master", 1, FixtureState.Planned);
        Change(r => Stage.Answer(r.With(fixture)));
    }

    public void Dispose() => Directory.Delete(Root, recursive: true);
}

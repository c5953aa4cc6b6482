using FixtureGen.App.Regeneration;

namespace FixtureGen.App;

/// <summary>
/// Number, fixture id and revision of one job as make and check see them: from the register, else the next free ones by
/// sorted name, which are not claimed.
/// </summary>
public static class LibraryNumbers
{
    public static Stage<Registered> For(string jobPath)
    {
        string folder = Path.GetDirectoryName(Path.GetFullPath(jobPath))!;
        Stage<Register> read = RegisterFile.Read(folder);
        if (!read.Ok)
        {
            return Stage.Failed<Registered>(read.Findings);
        }
        string[] jobs =
        [
            .. Directory.EnumerateFiles(folder, "*.toml").Where(f => File.Exists(Path.ChangeExtension(f, ".dxf"))),
        ];
        Register claimed = Numbering.Claim(
            read.Value!,
            jobs.Append(jobPath).Select(j => Path.GetFileNameWithoutExtension(j)!).Distinct(),
            Numbering.Stated(jobs)
        );
        Fixture fixture = claimed.Current(Path.GetFileNameWithoutExtension(jobPath))!;
        return Stage.Of(claimed.Told(fixture));
    }
}

using FixtureGen.Model;

namespace FixtureGen.App;

/// <summary>A job's two files, read: NAME.toml and the like-named NAME.dxf beside it.</summary>
public sealed record JobSource(
    string Name,
    string JobPath,
    string JobText,
    string DrawingPath,
    byte[] Drawing,
    Library Library,
    Registered Registered
)
{
    /// <summary>Reads both; a missing or unreadable file is a finding.</summary>
    public static Stage<JobSource> Read(string jobPath)
    {
        if (!jobPath.EndsWith(".toml", StringComparison.OrdinalIgnoreCase))
        {
            return Missing(
                "job-not-toml",
                jobPath,
                "a job is a .toml file",
                "name the .toml; 'fixturegen new OUTLINE.dxf' writes one"
            );
        }
        if (!File.Exists(jobPath))
        {
            return Missing(
                "job-missing",
                jobPath,
                "there is no such file",
                "check the path; 'fixturegen new OUTLINE.dxf' writes a job beside a drawing"
            );
        }
        string drawing = Path.ChangeExtension(jobPath, ".dxf");
        if (!File.Exists(drawing))
        {
            string? upper = Directory
                .EnumerateFiles(Path.GetDirectoryName(Path.GetFullPath(jobPath))!)
                .Order(StringComparer.Ordinal)
                .FirstOrDefault(f =>
                    string.Equals(Path.GetFileName(f), Path.GetFileName(drawing), StringComparison.OrdinalIgnoreCase)
                );
            if (upper is null)
            {
                return Missing(
                    "drawing-missing",
                    drawing,
                    "the job has no like-named drawing beside it",
                    "save the outline under that name"
                );
            }
            drawing = upper;
        }
        Stage<Library> library = Library.Of(jobPath);
        if (!library.Ok)
        {
            return Stage.Failed<JobSource>(library.Findings);
        }
        Stage<Registered> registered = LibraryNumbers.For(jobPath);
        if (!registered.Ok)
        {
            return Stage.Failed<JobSource>(registered.Findings);
        }
        try
        {
            return Stage.Of(
                new JobSource(
                    Path.GetFileNameWithoutExtension(jobPath),
                    jobPath,
                    File.ReadAllText(jobPath),
                    drawing,
                    File.ReadAllBytes(drawing),
                    library.Value!,
                    registered.Value!
                )
            );
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return Missing("file-unreadable", jobPath, e.Message, "free the file or its folder's permissions");
        }
    }

    /// <summary>The pipeline's request for this job; Registered is what the register says of it.</summary>
    public Request Request(string? plateFile, Action<string> progress, Registered registered) =>
        new(
            this.Name,
            this.Library.Relative(Path.GetFullPath(this.JobPath)),
            this.JobText,
            this.Library.Relative(Path.GetFullPath(this.DrawingPath)),
            this.Drawing,
            this.Library.Shop(plateFile),
            registered,
            ProductVersion.Text,
            progress
        );

    /// <summary>The same with the number that make and check use.</summary>
    public Request Request(string? plateFile, Action<string> progress) =>
        this.Request(plateFile, progress, this.Registered);

    private static Stage<JobSource> Missing(string code, string where, string message, string remedy) =>
        Stage.Failed<JobSource>(new Finding(code, Severity.Error, where, message, remedy));
}

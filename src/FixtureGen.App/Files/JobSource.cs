using FixtureGen.Model;
using FixtureGen.Shop.Reading;

namespace FixtureGen.App.Files;

/// <summary>A job's two files, read: NAME.toml and the like-named NAME.dxf or NAME.svg beside it.</summary>
internal sealed record JobSource(
    string Name,
    string JobPath,
    string JobText,
    string DrawingPath,
    byte[] Drawing,
    LibraryFolder Library,
    Registered Registered
)
{
    /// <summary>Reads both, and the job's number as make and check see it; a missing or unreadable file is a finding.</summary>
    public static Stage<JobSource> Read(string jobPath) => Read(jobPath, new LibraryNumbers().For);

    /// <summary>The same with numbers from elsewhere, so that many jobs need not each read the whole register.</summary>
    public static Stage<JobSource> Read(string jobPath, Func<string, Stage<Registered>> numbers)
    {
        if (!File.Exists(jobPath))
        {
            return Missing(
                "job-missing",
                jobPath,
                "there is no such file",
                "check the path; 'fixturegen new OUTLINE.dxf' writes a job beside a drawing"
            );
        }
        if (!JobFiles.Is(jobPath))
        {
            return Missing(
                "job-not-toml",
                jobPath,
                "a job is a .toml file",
                "name the .toml; 'fixturegen new OUTLINE.dxf' writes one"
            );
        }
        if (DrawingFiles.Beside(jobPath) is not { } drawing)
        {
            return Missing(
                "drawing-missing",
                DrawingFiles.NameFor(jobPath),
                "the job has no like-named drawing beside it",
                "save the outline under that name"
            );
        }
        Stage<LibraryFolder> library = LibraryFolder.Find(jobPath);
        if (!library.Ok)
        {
            return Stage.Failed<JobSource>(library.Findings);
        }
        Stage<Registered> registered = numbers(jobPath);
        if (!registered.Ok)
        {
            return Stage.Failed<JobSource>(registered.Findings);
        }
        try
        {
            return Stage.Answer(
                new JobSource(
                    Path.GetFileNameWithoutExtension(jobPath),
                    jobPath,
                    SourceText.Read(jobPath),
                    drawing,
                    DrawingFiles.Read(drawing),
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

    /// <summary>The pipeline's request for this job, with the shop files given.</summary>
    public Request RequestWith(ShopFiles shop, Action<string> progress) =>
        new()
        {
            JobName = Name,
            JobFile = Library.Relative(Path.GetFullPath(JobPath)),
            JobText = JobText,
            DrawingFile = Library.Relative(Path.GetFullPath(DrawingPath)),
            Drawing = Drawing,
            Shop = shop,
            Registered = Registered,
            Version = ProductVersion.Text,
            Progress = progress,
        };

    /// <summary>The same with the shop files of its library; a plate file, if any, stands in for the plate that the job names.</summary>
    public Request Request(string? plateFile, Action<string> progress) =>
        RequestWith(Library.Shop(plateFile), progress);

    private static Stage<JobSource> Missing(string code, string where, string message, string remedy) =>
        Stage.Failed<JobSource>(new Finding(code, Severity.Error, where, message, remedy));
}

using System.Collections.Immutable;
using System.Text;
using FixtureGen.App.Files;
using FixtureGen.App.Records;
using FixtureGen.App.Terminal;
using FixtureGen.Model;

namespace FixtureGen.App.Library.Changes;

/// <summary>The change report on disk: JSON, a table for a spreadsheet, and the page with its pictures in a folder beside it.</summary>
internal static class ChangeFiles
{
    /// <summary>Writes all of it into out/, each by one rename; false where the disk refuses, which is told.</summary>
    public static bool Write(
        Say say,
        string outputs,
        ImmutableArray<JobChange> changes,
        ImmutableArray<Notice> notices,
        string json
    )
    {
        try
        {
            Directory.CreateDirectory(outputs);
            OutputFolder.ReplaceFile(Path.Combine(outputs, "regenerate.report.json"), Encoding.UTF8.GetBytes(json));
            OutputFolder.ReplaceFile(
                Path.Combine(outputs, "regenerate.csv"),
                Encoding.UTF8.GetBytes(ChangeCsv.Text(changes))
            );
            Pictures(Path.Combine(outputs, ChangePage.PictureFolder), changes);
            string next = Path.Combine(outputs, "regenerate.html.next");
            using (StreamWriter page = new(next))
            {
                ChangePage.Write(page, changes, notices, "What regenerating the library changed");
            }
            File.Move(next, Path.Combine(outputs, "regenerate.html"), overwrite: true);
            return true;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            say.Findings([
                new Finding(
                    "out-not-writable",
                    Severity.Error,
                    outputs,
                    $"the change report cannot be written: {e.Message}",
                    "free the folder or its disk"
                ),
            ]);
            return false;
        }
    }

    /// <summary>Puts the pictures of this run in place of those of the last.</summary>
    private static void Pictures(string folder, ImmutableArray<JobChange> changes)
    {
        if (Directory.Exists(folder))
        {
            Directory.Delete(folder, recursive: true);
        }
        foreach (
            string picture in changes.SelectMany(c => (string?[])[c.PictureBefore, c.PictureAfter]).OfType<string>()
        )
        {
            Directory.CreateDirectory(folder);
            File.Copy(picture, Path.Combine(folder, Path.GetFileName(picture)));
        }
    }
}

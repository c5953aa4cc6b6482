using System.Globalization;
using FixtureGen.App.Records;
using FixtureGen.Model;

namespace FixtureGen.App.Files;

/// <summary>
/// Blocks that were noted as cut, so that their files lie frozen in out/JOB.rN, and of which the register no longer knows:
/// remade without it, their numbers would be given to other programs.
/// </summary>
internal static class LostBlocks
{
    /// <summary>A finding for each. <paramref name="path"/> is the register's, for the finding's place.</summary>
    public static IEnumerable<Finding> Find(string folder, Register register, string path)
    {
        if (LibraryFolder.Find(Path.Combine(Path.GetFullPath(folder), "x")).Value is not { } library)
        {
            yield break;
        }
        foreach ((string job, int revision) in Frozen(library.Out))
        {
            if (
                File.Exists(Path.Combine(folder, job + ".toml"))
                && register.RevisionsOf(job).All(f => f.Revision != revision)
                && !register.Events.Any(e => e.Job == job && e.Revision == revision)
            )
            {
                yield return new Finding(
                    "register-lost",
                    Severity.Error,
                    path,
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"revision {revision} of {job} was cut (its files are kept in out/{job}.r{revision}) and the register does not list it"
                    ),
                    "bring the register back from a copy; where that block is gone, take its folder away. Nothing was changed"
                );
            }
        }
    }

    private static IEnumerable<(string Job, int Revision)> Frozen(string outputs)
    {
        string[] folders = Directory.Exists(outputs) ? Directory.GetDirectories(outputs, "*.r*") : [];
        foreach (string name in folders.Select(f => Path.GetFileName(f)).Order(StringComparer.Ordinal))
        {
            int at = name.LastIndexOf(".r", StringComparison.Ordinal);
            if (int.TryParse(name[(at + 2)..], NumberStyles.None, CultureInfo.InvariantCulture, out int revision))
            {
                yield return (name[..at], revision);
            }
        }
    }
}

using System.Security.Cryptography;
using FixtureGen.App.Files;
using FixtureGen.Output.Reports;

namespace FixtureGen.App.Library;

/// <summary>What the last run left behind for one job.</summary>
internal sealed record Previous(Report Report, string Folder);

/// <summary>
/// Judges by content, never by time, whether a job's outputs are what its inputs would make again: the generator's
/// version and the SHA-256 of every file that the last run really read.
/// </summary>
internal sealed class Staleness(StandIn? instead)
{
    private readonly Dictionary<string, string?> _hashes = new(StringComparer.Ordinal);
    private readonly Lock _gate = new();

    /// <summary>The last run's report; null when there is none or it cannot be read.</summary>
    public static Previous? Last(string folder, string job) =>
        ReportFile.Read(folder, job) is { } report ? new Previous(report, folder) : null;

    /// <summary>Null when up to date, else why not, in words.</summary>
    public string? Why(Previous? previous, LibraryFolder library, int revision)
    {
        if (previous is null)
        {
            return "never made";
        }
        Report report = previous.Report;
        if (!report.Ok || report is { Inputs: null } or { Programs: null } or { Plate: null } or { FixtureId: null })
        {
            return "the last result is incomplete";
        }
        if (report.Generator != ProductVersion.Text)
        {
            return $"made by version {report.Generator}";
        }
        if (report.Revision != revision)
        {
            return "the register names another revision";
        }
        foreach (InputFacts input in report.Inputs)
        {
            if (Hash(library, input.File) != input.Sha256)
            {
                return $"{input.File} changed";
            }
        }
        string? gone = report.Files?.FirstOrDefault(f => !FrozenBlock.IsAsMade(previous.Folder, f))?.File;
        return gone is null ? null : $"{gone} is missing or altered";
    }

    private string? Hash(LibraryFolder library, string file)
    {
        string path = instead?.Is(file) == true ? instead.File : Path.GetFullPath(file, library.Root);
        lock (_gate)
        {
            if (_hashes.TryGetValue(path, out string? known))
            {
                return known;
            }
        }
        string? hash;
        try
        {
            hash = file.EndsWith('/')
                ? InputFacts.OfNames(
                    Directory.EnumerateFiles(path, "*.toml").Select(f => Path.GetFileNameWithoutExtension(f))
                )
                : Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(path)));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            hash = null;
        }
        lock (_gate)
        {
            _hashes[path] = hash;
        }
        return hash;
    }
}

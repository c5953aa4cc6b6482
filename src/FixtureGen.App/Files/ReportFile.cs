using System.Text.Json;
using FixtureGen.Output.Reports;

namespace FixtureGen.App.Files;

/// <summary>The report that a run left beside its files.</summary>
internal static class ReportFile
{
    /// <summary>A job's in a folder; null where there is none or it cannot be read.</summary>
    public static Report? Read(string folder, string job)
    {
        string path = Path.Combine(folder, job + ".report.json");
        try
        {
            return File.Exists(path)
                ? JsonSerializer.Deserialize(File.ReadAllBytes(path), ReportJson.Default.Report)
                : null;
        }
        catch (Exception e) when (e is JsonException or IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }
}

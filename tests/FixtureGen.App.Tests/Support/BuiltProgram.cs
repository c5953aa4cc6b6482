using System.Diagnostics;

namespace FixtureGen.App.Tests.Support;

/// <summary>
/// The program that the tests run as a user would: the one that FIXTUREGEN_PROGRAM names, such as the native one that is
/// shipped, else the managed one that was built with the tests.
/// </summary>
internal static class BuiltProgram
{
    /// <summary>A start with these arguments in this folder, with both outputs redirected.</summary>
    public static ProcessStartInfo Start(string root, string folder, IEnumerable<string> args)
    {
        string? named = Environment.GetEnvironmentVariable("FIXTUREGEN_PROGRAM");
        ProcessStartInfo start = new(string.IsNullOrEmpty(named) ? "dotnet" : named)
        {
            WorkingDirectory = folder,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        // the register has dates: two runs at one time of the clock must write the same
        start.Environment["SOURCE_DATE_EPOCH"] = "1796025600";
        if (string.IsNullOrEmpty(named))
        {
            start.ArgumentList.Add(Managed(root));
        }
        foreach (string arg in args)
        {
            start.ArgumentList.Add(arg);
        }
        return start;
    }

    private static string Managed(string root)
    {
        char slash = Path.DirectorySeparatorChar;
        bool release = AppContext.BaseDirectory.Contains($"{slash}Release{slash}", StringComparison.Ordinal);
        string build = release ? "Release" : "Debug";
        return Path.Combine(root, "src", "FixtureGen.App", "bin", build, "net10.0", "FixtureGen.App.dll");
    }
}

using System.Diagnostics;
using System.Runtime.CompilerServices;
using System.Text.Json.Nodes;

namespace FixtureGen.App.Tests.Support;

/// <summary>What a run of the real program gave.</summary>
public sealed record Ran(int Exit, string Output, string Error)
{
    /// <summary>Standard output as the one JSON object that it must be.</summary>
    public JsonObject Json => JsonNode.Parse(Output)!.AsObject();
}

/// <summary>Runs the program as a user would: its own process, in a folder of the test's.</summary>
public static class Cli
{
    public static string Root { get; } = FindRoot();

    public static ProcessStartInfo Start(string folder, params string[] args) => BuiltProgram.Start(Root, folder, args);

    public static Ran Run(string folder, params string[] args) => Run(Start(folder, args));

    public static Ran Run(ProcessStartInfo start)
    {
        using Process process = Process.Start(start)!;
        Task<string> error = process.StandardError.ReadToEndAsync();
        string output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return new Ran(process.ExitCode, output, error.GetAwaiter().GetResult());
    }

    private static string FindRoot([CallerFilePath] string here = "")
    {
        string? folder = Path.GetDirectoryName(here);
        while (folder is not null && !File.Exists(Path.Combine(folder, "FixtureGen.sln")))
        {
            folder = Path.GetDirectoryName(folder);
        }
        return folder ?? throw new InvalidOperationException("no FixtureGen.sln above the tests");
    }
}

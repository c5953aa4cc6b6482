using System.Diagnostics;
using System.Text.Json;
using Xunit;

namespace FixtureGen.Tests.Support;

/// <summary>A library of the system's Python that answers scripts in JSON; the test is skipped where its package is not installed.</summary>
internal sealed class PythonOracle(string module, string package)
{
    private const string Python = "/usr/bin/python3";

    private readonly Lazy<bool> _installed = new(() =>
        File.Exists(Python) && Run(["-c", $"import {module}"]).Exit == 0
    );

    /// <summary>What a script says of the files that it is given.</summary>
    public JsonElement Ask(string script, IEnumerable<string> files)
    {
        Assert.SkipUnless(_installed.Value, $"{package} is not installed: apt-get install {package}");
        (int exit, string answer, string errors) = Run(["-c", script, .. files]);
        Assert.True(exit == 0, errors);
        using var json = JsonDocument.Parse(answer);
        return json.RootElement.Clone();
    }

    /// <summary>The same of one file with these bytes, gone afterwards.</summary>
    public JsonElement Ask(string script, byte[] content, string extension)
    {
        string file = Path.Combine(Path.GetTempPath(), $"fixturegen-{Guid.NewGuid():N}{extension}");
        File.WriteAllBytes(file, content);
        try
        {
            return Ask(script, [file]);
        }
        finally
        {
            File.Delete(file);
        }
    }

    private static (int Exit, string Answer, string Errors) Run(IEnumerable<string> arguments)
    {
        var start = new ProcessStartInfo(Python, arguments)
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        using Process process = Process.Start(start)!;
        Task<string> errors = process.StandardError.ReadToEndAsync();
        string text = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return (process.ExitCode, text, errors.GetAwaiter().GetResult());
    }
}

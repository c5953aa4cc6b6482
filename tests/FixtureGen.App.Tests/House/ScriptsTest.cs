using System.Diagnostics;
using System.Text.RegularExpressions;
using FixtureGen.App.Tests.Support;
using Xunit;

namespace FixtureGen.App.Tests.House;

/// <summary>The page's scripts: types and unused names by Debian's TypeScript compiler, and what no script of a page with a content policy may say.</summary>
public sealed partial class ScriptsTest
{
    private const string Compiler = "/usr/bin/tsc";

    private static string Folder => Path.Combine(Cli.Root, "src", "FixtureGen.App", "wwwroot");

    [Fact]
    public void Types_hold_and_no_name_is_unused()
    {
        if (!File.Exists(Compiler))
        {
            bool installed = Environment.GetEnvironmentVariable("CI") == "true" && File.Exists("/usr/bin/apt-get");
            Assert.False(installed, "CI must install node-typescript");
            Assert.Skip("the check of the scripts' types needs Debian's node-typescript");
        }
        ProcessStartInfo start = new(Compiler) { WorkingDirectory = Folder, RedirectStandardOutput = true };
        string[] words =
        [
            "--allowJs",
            "--checkJs",
            "--noEmit",
            "--noUnusedLocals",
            "--noUnusedParameters",
            "--noFallthroughCasesInSwitch",
            "--allowUnreachableCode",
            "false",
            "--target",
            "es2022",
            "--module",
            "es2022",
            "--moduleResolution",
            "node",
            "--lib",
            "es2022,dom,dom.iterable",
            "main.js",
        ];
        foreach (string word in words)
        {
            start.ArgumentList.Add(word);
        }
        using Process run = Process.Start(start)!;
        string said = run.StandardOutput.ReadToEnd();
        run.WaitForExit();
        Assert.True(run.ExitCode == 0, said);
    }

    [Fact]
    public void Nothing_is_written_as_markup_compared_loosely_or_left_behind()
    {
        string[] wrong =
        [
            .. Directory
                .EnumerateFiles(Folder, "*.js")
                .SelectMany(f => File.ReadLines(f).Select((line, i) => (File: Path.GetFileName(f), line, No: i + 1)))
                .Where(l => Forbidden().IsMatch(l.line))
                .Select(l => FormattableString.Invariant($"{l.File} {l.No}: {l.line.Trim()}")),
        ];
        Assert.True(wrong.Length == 0, string.Join('\n', wrong));
    }

    [Fact]
    public void Every_script_and_style_is_reached_from_the_page()
    {
        string page = File.ReadAllText(Path.Combine(Folder, "index.html"));
        string all = page + string.Concat(Directory.EnumerateFiles(Folder, "*.js").Select(File.ReadAllText));
        foreach (string file in Directory.EnumerateFiles(Folder).Select(f => Path.GetFileName(f)!))
        {
            Assert.True(
                file == "index.html"
                    || all.Contains($"\"{file}\"", StringComparison.Ordinal)
                    || all.Contains($"\"./{file}\"", StringComparison.Ordinal),
                file
            );
        }
    }

    [GeneratedRegex(
        @"innerHTML|outerHTML|insertAdjacentHTML|document\.write|\beval\(|new Function|console\.log|\bdebugger\b|\bvar |[^=!]==[^=]|!=[^=]"
    )]
    private static partial Regex Forbidden();
}

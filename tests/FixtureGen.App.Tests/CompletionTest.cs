using System.Diagnostics;
using System.Text.RegularExpressions;
using FixtureGen.App.Tests.Support;
using Xunit;

namespace FixtureGen.App.Tests;

/// <summary>Scripts run by the shells themselves where these are installed; fish and zsh say skipped where not.</summary>
public sealed partial class CompletionTest
{
    /// <summary>File names only where a file may stand: a count, a port and a command without arguments take none.</summary>
    [Theory]
    [InlineData("fixturegen re", "regenerate register")]
    [InlineData("fixturegen verify a.toml b.nc --setup t", "top trim")]
    [InlineData("fixturegen verify --s", "--setup --strict")]
    [InlineData("fixturegen completion z", "zsh")]
    [InlineData("fixturegen regenerate --jobs DEVELOP", "")]
    [InlineData("fixturegen layout --port DEVELOP", "")]
    [InlineData("fixturegen new outlines/pruner-sheath.d", "outlines/pruner-sheath.dxf")]
    [InlineData("fixturegen demo -o DEVELOP", "DEVELOPERS.md")]
    [InlineData("fixturegen demo DEVELOP", "")]
    [InlineData("fixturegen completion DEVELOP", "")]
    [InlineData("fixturegen demo --o", "--output")]
    [Trait("Speed", "Slow")]
    public void Bash_completes(string typed, string offered)
    {
        string script =
            Script("bash")
            + "COMP_WORDS=("
            + typed
            + "); COMP_CWORD=$((${#COMP_WORDS[@]} - 1)); _fixturegen; echo \"${COMPREPLY[*]}\"\n";
        (int exit, string output) = Shell("bash", script, "--norc");
        Assert.Equal((0, offered), (exit, output.Trim()));
    }

    [Theory]
    [InlineData("re", "regenerate register")]
    [InlineData("verify a.toml b.nc --setup t", "top trim")]
    [InlineData("completion z", "zsh")]
    [InlineData("make outlines/pruner-sheath.d", "outlines/pruner-sheath.dxf")]
    [InlineData("demo -o DEVELOP", "DEVELOPERS.md")]
    [InlineData("demo DEVELOP", "")]
    [InlineData("regenerate --jobs DEVELOP", "")]
    [InlineData("layout --port DEVELOP", "")]
    [Trait("Speed", "Slow")]
    public void Fish_completes(string typed, string offered)
    {
        Assert.SkipUnless(File.Exists("/usr/bin/fish"), "fish is not installed");
        string script = Script("fish") + $"complete -C'fixturegen {typed}' | cut -f 1\n";
        (int exit, string output) = Shell("fish", script, "--no-config");
        Assert.Equal((0, offered), (exit, output.Trim().Replace('\n', ' ')));
    }

    [Theory]
    [InlineData("bash", "-n")]
    [InlineData("zsh", "-n")]
    [InlineData("fish", "-n")]
    public void A_shell_reads_its_script(string shell, string onlyRead)
    {
        Assert.SkipUnless(File.Exists("/usr/bin/" + shell), $"{shell} is not installed");
        Assert.Equal((0, ""), Shell(shell, Script(shell), onlyRead));
    }

    [Theory]
    [InlineData("bash", "")]
    [InlineData("zsh", "")]
    [InlineData("fish", "-l ")]
    [Trait("Speed", "Slow")]
    public void Every_command_and_option_of_the_help_is_in_the_script(string shell, string before)
    {
        string script = Script(shell);
        string help = Cli.Run(Cli.Root, "--help").Output;
        string[] commands = [.. Row().Matches(help).Select(m => m.Groups[1].Value)];
        Assert.True(commands.Length >= 9);
        foreach (string command in commands)
        {
            Assert.Contains(command, script, StringComparison.Ordinal);
            string own = Cli.Run(Cli.Root, command, "--help").Output;
            foreach (string option in LongOption().Matches(own).Select(m => m.Groups[1].Value).Where(o => o != "help"))
            {
                string written = before.Length > 0 ? before + option : "--" + option;
                Assert.Contains(written, script, StringComparison.Ordinal);
            }
        }
    }

    private static string Script(string shell) => Cli.Run(Cli.Root, "completion", shell).Output;

    private static (int Exit, string Output) Shell(string shell, string script, string option)
    {
        string file = Path.GetTempFileName();
        File.WriteAllText(file, script);
        ProcessStartInfo start = new(shell, [option, file])
        {
            WorkingDirectory = Cli.Root,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        Ran ran = Cli.Run(start);
        File.Delete(file);
        return (ran.Exit, ran.Output + ran.Error);
    }

    [GeneratedRegex("(?<=Commands:[\\s\\S]*)^  ([a-z]+) ", RegexOptions.Multiline)]
    private static partial Regex Row();

    [GeneratedRegex("--([a-z][a-z-]+)")]
    private static partial Regex LongOption();
}

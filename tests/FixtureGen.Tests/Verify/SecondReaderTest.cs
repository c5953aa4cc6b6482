using System.Diagnostics;
using System.Text.Json;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using FixtureGen.Verify;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Tests.Verify;

/// <summary>
/// Cutting moves as the judge reads them against an independent reader: npm gcode-parser 2.2.0 for the words, with a small modal
/// interpreter of its own (Support/second-reader.cjs). Needs node and GCODE_PARSER, the folder that holds the package; skipped
/// without them.
/// </summary>
public sealed class SecondReaderTest
{
    private const double Tolerance = 1e-4;

    public static TheoryData<string> Demos => [.. DemoPrograms.Names()];

    [Theory]
    [MemberData(nameof(Demos))]
    public void Both_readers_end_their_cuts_at_the_same_places(string name)
    {
        string? package = Environment.GetEnvironmentVariable("GCODE_PARSER");
        Assert.SkipWhen(
            package is null || !Directory.Exists(package),
            "GCODE_PARSER names no folder with gcode-parser"
        );
        DemoProgram demo = DemoPrograms.Of(name);
        VerifyResult result = Verifier.Judge(
            new VerifyRequest(demo.Job, demo.Design, demo.Texts, Limits.House) { Drawing = demo.Drawing }
        );
        foreach (ProgramVerdict verdict in result.Programs)
        {
            ProgramText text = demo.Texts.First(t => t.Setup == verdict.Setup);
            double[][] other = Read(package!, Plain(text.Text, demo.Job.Control));
            double[][] own =
            [
                .. verdict.Motions.Where(m => m.Kind != MotionKind.Rapid).Select(m => new[] { m.To.X, m.To.Y, m.To.Z }),
            ];
            Assert.Equal(own.Length, other.Length);
            for (int i = 0; i < own.Length; i++)
            {
                double off = own[i].Zip(other[i], (a, b) => Math.Abs(a - b)).Max();
                Assert.True(off <= Tolerance, FormattableString.Invariant($"{text.FileName} cut {i}"));
            }
        }
    }

    /// <summary>The control's own words are taken out: number, vacuum, comments after a semicolon.</summary>
    private static string Plain(string text, Control control) =>
        string.Join(
            '\n',
            text.Split('\n')
                .Select(l => l.Split(';')[0])
                .Select(l =>
                    control.ProgramNumberWord.Length > 0
                    && l.StartsWith(control.ProgramNumberWord, StringComparison.Ordinal)
                        ? ""
                        : l
                )
        );

    private static double[][] Read(string package, string text)
    {
        string file = Path.GetTempFileName();
        try
        {
            File.WriteAllText(file, text);
            string script = Path.Combine(DemoShop.Root, "tests", "FixtureGen.Tests", "Support", "second-reader.cjs");
            ProcessStartInfo start = new("node")
            {
                RedirectStandardOutput = true,
                ArgumentList = { script, file },
                Environment = { ["NODE_PATH"] = package },
            };
            using Process process = Process.Start(start)!;
            string json = process.StandardOutput.ReadToEnd();
            process.WaitForExit();
            Assert.Equal(0, process.ExitCode);
            return JsonSerializer.Deserialize<double[][]>(json)!;
        }
        finally
        {
            File.Delete(file);
        }
    }
}

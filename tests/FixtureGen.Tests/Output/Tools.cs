using System.Diagnostics;
using System.Globalization;
using Xunit;

namespace FixtureGen.Tests.Output;

/// <summary>Programs of the machine that read our files independently; a test that needs one skips with a line where it is missing.</summary>
internal static class Tools
{
    /// <summary>Runs <paramref name="program"/> on files in a scratch folder and returns its standard output; fails on a bad exit.</summary>
    public static string Run(
        string program,
        string package,
        string arguments,
        params (string Name, byte[] Bytes)[] files
    )
    {
        Assert.SkipUnless(Found(program), $"{program} is not installed (package {package})");
        string folder = Directory.CreateTempSubdirectory("fixturegen-").FullName;
        try
        {
            foreach ((string name, byte[] bytes) in files)
            {
                File.WriteAllBytes(Path.Combine(folder, name), bytes);
            }
            ProcessStartInfo start = new(program, arguments)
            {
                WorkingDirectory = folder,
                RedirectStandardOutput = true,
                RedirectStandardError = true,
            };
            using Process process = Process.Start(start)!;
            Task<string> errors = process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
            string output = process.StandardOutput.ReadToEnd();
            process.WaitForExit();
            Assert.True(process.ExitCode == 0, $"{program} {arguments}: {errors.Result}");
            return output;
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    /// <summary>The first page of a PDF as PNG bytes, drawn by poppler.</summary>
    public static byte[] Picture(byte[] pdf, int dotsPerInch)
    {
        string folder = Directory.CreateTempSubdirectory("fixturegen-").FullName;
        try
        {
            string page = Path.Combine(folder, "page");
            Run(
                "pdftoppm",
                "poppler-utils",
                $"-r {dotsPerInch.ToString(CultureInfo.InvariantCulture)} -png -f 1 -l 1 -singlefile in.pdf {page}",
                ("in.pdf", pdf)
            );
            return File.ReadAllBytes(page + ".png");
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static bool Found(string program) =>
        Path.IsPathRooted(program)
            ? File.Exists(program)
            : (Environment.GetEnvironmentVariable("PATH") ?? "")
                .Split(Path.PathSeparator)
                .Any(p => File.Exists(Path.Combine(p, program)));
}

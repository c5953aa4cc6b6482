using System.Collections.Immutable;
using System.Diagnostics;
using System.Globalization;
using FixtureGen.App.Files;
using FixtureGen.Output;

namespace FixtureGen.Bench;

/// <summary>
/// kill -9 aimed at the writing alone: a process that does nothing but replace a job's folder and a single file, as the register is, one
/// generation after another, is killed at random moments; what is left must be one whole generation of each.
/// </summary>
internal static class LibraryKills
{
    private const string Job = "job";
    private const int Lines = 20_000;
    private static readonly string[] Files =
    [
        "top.nc",
        "trim.nc",
        "fixture.dxf",
        "preview.png",
        "setup.pdf",
        "report.json",
    ];

    /// <summary>Replaces for as long as it lives. Generation n fills every file with its number.</summary>
    public static void Write(string folder)
    {
        for (int n = 1; ; n++)
        {
            string line = n.ToString(CultureInfo.InvariantCulture) + "\n";
            byte[] bytes = [.. Enumerable.Repeat(line, Lines).SelectMany(l => l.Select(c => (byte)c))];
            ImmutableArray<OutputFile> files = [.. Files.Select(f => new OutputFile($"{Job}.{f}", [.. bytes]))];
            if (OutputFolder.Replace(Path.Combine(folder, Job), Job, files) is [{ } finding, ..])
            {
                throw new InvalidOperationException(finding.ToString());
            }
            OutputFolder.ReplaceFile(Path.Combine(folder, "numbers"), bytes);
            if (n == 1)
            {
                Console.WriteLine("writing");
            }
        }
    }

    public static void Run(int kills)
    {
        string folder = Directory.CreateTempSubdirectory("fixturegen-kills-").FullName;
        Random random = new(20261126);
        int folders = 0;
        int singles = 0;
        int torn = 0;
        for (int i = 0; i < kills; i++)
        {
            ProcessStartInfo start = new(Environment.ProcessPath!) { RedirectStandardOutput = true };
            foreach (string word in new[] { "library", "write", folder })
            {
                start.ArgumentList.Add(word);
            }
            using Process process = Process.Start(start)!;
            process.StandardOutput.ReadLine();
            Thread.Sleep(random.Next(0, 200));
            process.Kill();
            process.WaitForExit();
            folders += Directory.EnumerateDirectories(folder, ".*.next-*").Any() ? 1 : 0;
            singles += File.Exists(Path.Combine(folder, "numbers.next")) ? 1 : 0;
            torn +=
                Whole(Directory.GetFiles(Path.Combine(folder, Job), Job + ".*"))
                && Whole([Path.Combine(folder, "numbers")])
                    ? 0
                    : 1;
            OutputFolder.Sweep(folder);
            File.Delete(Path.Combine(folder, "numbers.next"));
        }
        Directory.Delete(folder, recursive: true);
        Console.WriteLine(
            FormattableString.Invariant(
                $"{kills} kills: {folders} while a folder was written or swapped, {singles} while a single file was; {torn} torn"
            )
        );
    }

    /// <summary>All files of one generation, each complete.</summary>
    private static bool Whole(string[] files)
    {
        string[][] lines = [.. files.Select(File.ReadAllLines)];
        return (lines.Length == 1 || lines.Length == Files.Length)
            && lines.All(l => l.Length == Lines)
            && lines.SelectMany(l => l).Distinct(StringComparer.Ordinal).Count() == 1;
    }
}

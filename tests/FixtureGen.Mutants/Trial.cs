using System.Diagnostics;
using System.Globalization;

namespace FixtureGen.Mutants;

/// <summary>A class of tests with the seconds that it takes and the faults whose places it reaches.</summary>
internal sealed record TestClass(string Program, string Name, double Seconds, HashSet<int> Reached);

/// <summary>
/// Runs the tests beside a faulty judge: a copy of each test program's folder with the judge's assembly replaced. Only classes
/// that reach a fault are run for it, the quick ones first.
/// </summary>
internal sealed class Trial
{
    private readonly string _work;
    private readonly List<TestClass> _classes = [];

    /// <param name="root">The clone, built.</param>
    /// <param name="work">A folder for the copies; the faulty judge is its FixtureGen.Verify.dll.</param>
    public Trial(string root, string work)
    {
        _work = work;
        Add(root, "FixtureGen.Verify.Tests", "");
        Add(root, "FixtureGen.Tests", "FixtureGen.Tests.Verify.");
    }

    public Fate Try(int mutant)
    {
        List<TestClass> reaching = [.. _classes.Where(c => c.Reached.Contains(mutant)).OrderBy(c => c.Seconds)];
        if (reaching.Count == 0)
            return Fate.Unreached;
        while (reaching.Count > 0)
        {
            // as many quick classes of one program as come to ten seconds, or one slow one
            string program = reaching[0].Program;
            List<TestClass> batch = [reaching[0]];
            batch.AddRange(
                reaching
                    .Skip(1)
                    .Where(c => c.Program == program)
                    .TakeWhile(c => (batch.Sum(b => b.Seconds) + c.Seconds) < 10)
            );
            reaching.RemoveAll(batch.Contains);
            TimeSpan limit = TimeSpan.FromSeconds(30 + (5 * batch.Sum(b => b.Seconds)));
            if (!Passes(program, batch.SelectMany(b => new[] { "-class", b.Name }), mutant, limit, null))
                return Fate.Killed;
        }
        return Fate.Survived;
    }

    private void Add(string root, string project, string prefix)
    {
        string from = Path.Combine(root, "tests", project, "bin", "Debug", "net10.0");
        string to = Path.Combine(_work, "tests", project, "bin", "Debug", "net10.0");
        foreach (string file in Directory.EnumerateFiles(from, "*", SearchOption.AllDirectories))
        {
            string copy = Path.Combine(to, Path.GetRelativePath(from, file));
            Directory.CreateDirectory(Path.GetDirectoryName(copy)!);
            File.Copy(file, copy, true);
        }
        File.Copy(Path.Combine(_work, "FixtureGen.Verify.dll"), Path.Combine(to, "FixtureGen.Verify.dll"), true);
        string program = Path.Combine(to, project);
        foreach (string name in ClassesIn(program).Where(n => n.StartsWith(prefix, StringComparison.Ordinal)))
        {
            string file = Path.Combine(_work, "reached.txt");
            File.Delete(file);
            Stopwatch watch = Stopwatch.StartNew();
            if (!Passes(program, ["-class", name], -1, TimeSpan.FromHours(1), file))
                throw new InvalidOperationException($"{name} fails without a fault");
            HashSet<int> reached = File.Exists(file)
                ? [.. File.ReadAllLines(file).Select(l => int.Parse(l, CultureInfo.InvariantCulture))]
                : [];
            _classes.Add(new(program, name, watch.Elapsed.TotalSeconds, reached));
            Console.Error.WriteLine(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{name}: {watch.Elapsed.TotalSeconds:0} s, reaches {reached.Count}"
                )
            );
        }
    }

    private static IEnumerable<string> ClassesIn(string program)
    {
        using Process process = Process.Start(
            new ProcessStartInfo(program, ["-list", "classes"]) { RedirectStandardOutput = true }
        )!;
        string[] lines = process.StandardOutput.ReadToEnd().Split('\n', StringSplitOptions.TrimEntries);
        process.WaitForExit();
        return lines.Where(l =>
            l.StartsWith("FixtureGen.", StringComparison.Ordinal) && !l.Contains(' ', StringComparison.Ordinal)
        );
    }

    private static bool Passes(
        string program,
        IEnumerable<string> arguments,
        int mutant,
        TimeSpan limit,
        string? reached
    )
    {
        ProcessStartInfo start = new(program, [.. arguments, "-stopOnFail", "-noColor", "-maxThreads", "1"])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        start.Environment["FIXTUREGEN_MUTANT"] = mutant.ToString(CultureInfo.InvariantCulture);
        if (reached is not null)
            start.Environment["FIXTUREGEN_REACHED"] = reached;
        using Process process = Process.Start(start)!;
        process.OutputDataReceived += (_, _) => { };
        process.ErrorDataReceived += (_, _) => { };
        process.BeginOutputReadLine();
        process.BeginErrorReadLine();
        if (!process.WaitForExit(limit))
        {
            process.Kill(true);
            return false;
        }
        return process.ExitCode == 0;
    }
}

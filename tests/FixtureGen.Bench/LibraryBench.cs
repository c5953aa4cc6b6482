using System.Diagnostics;
using System.Globalization;
using FixtureGen.App.Library;
using FixtureGen.App.Library.Changes;
using FixtureGen.App.Records;
using FixtureGen.App.Tests.Support;
using FixtureGen.Output;
using FixtureGen.Output.Pictures;

namespace FixtureGen.Bench;

/// <summary>
/// The library as regenerate works it, in this process and warm: seconds of a remake with and without papers, of a run with
/// nothing stale, memory by size, and the gain of the second worker. Wanted, 2 cores: 200 jobs in 10 s without and 30 s
/// with papers, 1,000 jobs with nothing stale in 1 s, at least 1.8 times with two workers.
/// </summary>
internal static class LibraryBench
{
    public static void Run(string[] args)
    {
        switch (args)
        {
            case ["steps", ..]:
                Steps(Number(args, 1, 26));
                break;
            case ["pictures", ..]:
                Pictures();
                break;
            case ["kills", ..]:
                LibraryKills.Run(Number(args, 1, 200));
                break;
            case ["write", string folder]:
                LibraryKills.Write(folder);
                break;
            case ["make", string folder, ..]:
                SeededLibrary.Write(Root(), folder, Number(args, 2, 1000), Seed);
                break;
            default:
                Sizes(Number(args, 0, 200), Number(args, 1, 1000));
                break;
        }
    }

    private const int Seed = 8;

    private static int Number(string[] args, int at, int otherwise) =>
        args.Length > at ? int.Parse(args[at], CultureInfo.InvariantCulture) : otherwise;

    /// <summary>Processor milliseconds and bytes allocated of each step of the pipeline, mean over jobs after one round to warm up; one worker.</summary>
    private static void Steps(int jobs)
    {
        using Temp temp = new(jobs);
        string[] files = [.. Directory.EnumerateFiles(temp.Jobs, "*.toml").Order(StringComparer.Ordinal)];
        Dictionary<string, (double Ms, double Bytes)> sum = [];
        for (int round = 0; round < 3; round++)
        {
            sum.Clear();
            double bytes = GC.GetTotalAllocatedBytes();
            int collections = GC.CollectionCount(2);
            foreach (string file in files)
            {
                string step = "";
                (double at, double allocated) = (Now(), GC.GetTotalAllocatedBytes());
                void Begin(string next)
                {
                    (double now, double total) = (Now(), GC.GetTotalAllocatedBytes());
                    (double ms, double b) = sum.GetValueOrDefault(step);
                    sum[step] = (ms + now - at, b + total - allocated);
                    (step, at, allocated) = (next, now, total);
                }
                FixtureGen.App.Files.JobSource source = FixtureGen.App.Files.JobSource.Read(file).Value!;
                Outcome outcome = Delivery.Make(source.Request(null, Begin));
                outcome.Verdict?.Block.Dispose();
                Begin("");
                if (round == 0 && !outcome.Report.Ok)
                {
                    Console.WriteLine(
                        $"{source.Name}: {outcome.Findings.First(f => f.Severity == Model.Severity.Error).Code}"
                    );
                }
            }
            Say(
                $"round {round}: {sum.Values.Sum(v => v.Ms) / files.Length:0.0} ms a job, {(GC.GetTotalAllocatedBytes() - bytes) / files.Length / 1e6:0} MB a job, {GC.CollectionCount(2) - collections} full collections"
            );
        }
        foreach ((string step, (double ms, double bytes)) in sum)
        {
            Say($"{step, -24} {ms / files.Length, 8:0.0} ms {bytes / files.Length / 1e6, 8:0.0} MB");
        }
    }

    /// <summary>Processor milliseconds of each picture of the first job, mean of twenty after twenty.</summary>
    private static void Pictures()
    {
        using Temp temp = new(1);
        FixtureGen.App.Files.JobSource source = FixtureGen
            .App.Files.JobSource.Read(Directory.EnumerateFiles(temp.Jobs, "*.toml").First())
            .Value!;
        Outcome o = Delivery.Make(source.Request(null, static _ => { }));
        (string Name, Action Draw)[] all =
        [
            ("drawing", () => FixtureDrawing.Dxf(o.Design!, o.Job!)),
            ("preview.png", () => Preview.Png(o.Design!, o.Job!)),
            ("preview.svg", () => Preview.Svg(o.Design!, o.Job!)),
            ("block.png", () => BlockPicture.Png(o.Verdict!.Block, o.Design!)),
            ("holding.png", () => HoldingPicture.Png(o.Design!, o.Holding!, o.Job!.Limits)),
        ];
        foreach ((string name, Action draw) in all)
        {
            double at = 0;
            for (int i = 0; i < 80; i++)
            {
                at = i == 60 ? Now() : at;
                draw();
            }
            Say($"{name, -12} {(Now() - at) / 20, 8:0.0} ms");
        }
    }

    private static void Sizes(int small, int large)
    {
        using Temp temp = new(small);
        Console.WriteLine("to warm up: " + Once(temp, 2, force: true));
        Say($"{small} jobs, 2 workers: {Once(temp, 2, force: true)}");
        Say($"{small} jobs, 1 worker:  {Once(temp, 1, force: true)}");
        Say($"{small} jobs, nothing stale: {Once(temp, 2, force: false)}");
        using Temp big = new(large);
        Say($"{large} jobs, 2 workers: {Once(big, 2, force: true)}");
        Say($"{large} jobs, nothing stale: {Once(big, 2, force: false)}");
    }

    private static string Once(Temp library, int workers, bool force)
    {
        string scratch = Directory.CreateDirectory(Path.Combine(library.Folder, "scratch")).FullName;
        RegenerateOptions options = new(
            library.Folder,
            null,
            DryRun: false,
            force,
            workers,
            Occasion.Now("bench", null)
        );
        Stopwatch watch = Stopwatch.StartNew();
        double cpu = Now();
        var run = new Regenerator(options, static (_, _, _) => { }, CancellationToken.None).Run(scratch);
        double seconds = watch.Elapsed.TotalSeconds;
        string counts = string.Join(
            ", ",
            run.Value.GroupBy(c => c.Result)
                .OrderBy(g => g.Key)
                .Select(g => FormattableString.Invariant($"{g.Count()} {ChangeReport.Word(g.Key)}"))
        );
        using Process self = Process.GetCurrentProcess();
        return FormattableString.Invariant(
            $"{seconds:0.00} s, {(Now() - cpu) / 1000:0.00} s of processors, {counts}; peak {self.PeakWorkingSet64 / 1e6:0} MB"
        );
    }

    private static void Say(FormattableString text) => Console.WriteLine(FormattableString.Invariant(text));

    private static double Now()
    {
        using Process self = Process.GetCurrentProcess();
        return self.TotalProcessorTime.TotalMilliseconds;
    }

    private static string Root()
    {
        DirectoryInfo? folder = new(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "FixtureGen.sln")))
        {
            folder = folder.Parent;
        }
        return folder?.FullName ?? throw new InvalidOperationException("No FixtureGen.sln above the bench.");
    }

    private sealed class Temp : IDisposable
    {
        public Temp(int jobs) => SeededLibrary.Write(Root(), Folder, jobs, Seed);

        public string Folder { get; } = Directory.CreateTempSubdirectory("fixturegen-bench-").FullName;

        public string Jobs => Path.Combine(Folder, "outlines");

        public void Dispose() => Directory.Delete(Folder, recursive: true);
    }
}

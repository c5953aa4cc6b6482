using System.Collections.Immutable;
using System.Diagnostics;
using System.Globalization;
using System.Text.Json.Nodes;
using FixtureGen.App.Files;
using FixtureGen.App.Page.Layout;
using FixtureGen.App.Page.Serving;
using FixtureGen.Design;
using FixtureGen.Geometry;
using FixtureGen.Holding;
using FixtureGen.Model;
using FixtureGen.Solve;

namespace FixtureGen.Bench;

/// <summary>
/// One step of a drag on the layout page, by stage: median processor milliseconds of this process over the demo jobs, one
/// magnet moved a little at every step. Processor time, so that a busy machine does not spoil it. The last columns are the
/// page's whole question from request to answer, and the answer's size.
/// </summary>
internal static class LayoutBench
{
    private const int Steps = 25;
    private static readonly string[] Stages = ["begin", "finish", "context", "evaluate"];

    public static void Run(string[] jobs)
    {
        Console.WriteLine(
            "job                " + string.Join("  ", Stages.Append("answer").Append("kB").Select(s => s.PadLeft(9)))
        );
        foreach (string file in DemoRequests.Files(jobs))
        {
            Stage<Placed> placed = Pipeline.Place(DemoRequests.Of(file));
            if (placed.Value is { } p)
            {
                Print(file, p);
            }
        }
    }

    private static void Print(string file, Placed p)
    {
        FixtureDesign begun = Designer.Begin(p.Part, p.Placement, p.Job, Tolerances.House).Value!;
        ImmutableArray<MagnetPlace> places = MagnetPlacement.Choose(begun, p.Job, Tolerances.House).Value;
        List<double[]> times = [];
        HoldingContext? like = null;
        for (int i = 0; i < Steps; i++)
        {
            ImmutableArray<MagnetPlace> moved = places.SetItem(
                0,
                places[0] with
                {
                    At = places[0].At + new Point2(0.2 * i, 0.1 * i),
                }
            );
            times.Add(Step(p, moved, ref like));
        }
        double[] medians = [.. Stages.Select((_, s) => Median(times.Skip(5).Select(t => t[s])))];
        (double answer, double kilobytes) = Answer(file, places);
        string cells = string.Join("  ", medians.Append(answer).Append(kilobytes).Select(Cell));
        Console.WriteLine($"{Path.GetFileNameWithoutExtension(file), -18} {cells}");
    }

    /// <summary>What the page is answered to a drag: processor time and the answer's kilobytes, medians.</summary>
    private static (double Ms, double Kilobytes) Answer(string file, ImmutableArray<MagnetPlace> places)
    {
        LayoutTrial trial = LayoutTrial
            .Open(JobSource.Read(file).Value!, JobSource.Read(file).Value!.Library.Shop(null))
            .Value!;
        LayoutAsk own = trial.Own();
        List<double> times = [];
        List<double> sizes = [];
        ImmutableHashSet<string> have = [];
        for (int i = 0; i < Steps; i++)
        {
            Point2 at = places[0].At + new Point2(0.2 * i, 0.1 * i);
            LayoutAsk ask = own with
            {
                Magnets = places.SetItem(0, places[0] with { At = at }),
                Ports = [],
                Have = have,
            };
            double before = Now();
            PageAnswer answer = trial.Try(ask);
            times.Add(Now() - before);
            sizes.Add(answer.Body.Length / 1000.0);
            JsonNode told = JsonNode.Parse(answer.Body.Span)!;
            have = [.. told["shapes"]!.AsArray().Select(s => (string)s!["key"]!), (string)told["traceKey"]!];
        }
        return (Median(times.Skip(5)), Median(sizes.Skip(5)));
    }

    private static double[] Step(Placed p, ImmutableArray<MagnetPlace> magnets, ref HoldingContext? like)
    {
        Pose back = Transform.Inverse(p.Placement.Pose);
        Job job = p.Job with
        {
            Magnets = [.. magnets.Select(m => new MagnetWish(Transform.Apply(back, m.At), m.Locked))],
            MagnetCount = magnets.Length,
        };
        double[] at = new double[5];
        at[0] = Now();
        FixtureDesign begun = Designer.Begin(p.Part, p.Placement, job, Tolerances.House).Value!;
        at[1] = Now();
        FixtureDesign design =
            Designer.Finish(begun, magnets, job, Tolerances.House).Value ?? begun with { Magnets = magnets };
        at[2] = Now();
        HoldingContext context = HoldingAnalysis.Context(design, job, Tolerances.House, like).Value!;
        like = context;
        at[3] = Now();
        HoldingResult result = context.Evaluate(magnets);
        HoldJudgement.Judge(context, result, job);
        at[4] = Now();
        return [at[1] - at[0], at[2] - at[1], at[3] - at[2], at[4] - at[3]];
    }

    private static double Now() => Process.GetCurrentProcess().TotalProcessorTime.TotalMilliseconds;

    private static double Median(IEnumerable<double> values)
    {
        double[] sorted = [.. values.Order()];
        return sorted[sorted.Length / 2];
    }

    private static string Cell(double ms) => ms.ToString("0.0", CultureInfo.InvariantCulture).PadLeft(9);
}

using System.Globalization;
using FixtureGen.Model;
using FixtureGen.Verify;
using FixtureGen.Verify.Carving;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Bench;

/// <summary>
/// Ten metres of path with a 6.35 mm end mill on 216 x 216 mm at 0.1 mm cells, one core, and the whole judging of demo top programs, warm.
/// Wanted: at most 1 ms on long flat moves (10 km of path a second), 15 ms on faceted rings, 150 ms for a program, corners and all. Every row
/// is the least of many runs in processor time of this process; beside it the same in fills of the grid, which tell a
/// busy or slow machine from slow code.
/// </summary>
internal static class JudgeBench
{
    private const double Metres = 10_000;
    private const int CarveRuns = 150;
    private const int JudgeRuns = 12;
    private static readonly Cutter Cutter = new(null!, CutterShape.Flat, 3.175, 0, 0);

    public static void Run(string[] jobs)
    {
        double fill = Fill();
        Print("fill of the grid", fill, fill);
        Print("long flat moves, 0 deg", Carve(Slots(0, 18, 18)), fill);
        Print("the same, 22.5 deg", Carve(Slots(22.5, 18, 18)), fill);
        Print("the same, 45 deg", Carve(Slots(45, 18, 18)), fill);
        Print("the same, 90 deg", Carve(Slots(90, 18, 18)), fill);
        Print(
            "faceted rings",
            Carve([.. Rings((r, at) => Enumerable.Range(0, at).SelectMany(k => Chord(r, k, at)))]),
            fill
        );
        Print("rings as arcs", Carve([.. Rings((r, _) => Enumerable.Range(0, 2).Select(k => Arc(r, k)))]), fill);
        Print("ramps, 0 deg", Carve(Slots(0, 20, 17)), fill);
        foreach (string file in DemoRequests.Files(jobs))
        {
            Print(Path.GetFileNameWithoutExtension(file) + " top", Judge(file), fill);
        }
    }

    private static double Fill()
    {
        float[] cells = new float[2160 * 2160];
        return Least(CarveRuns, () => { }, () => Array.Fill(cells, 18f));
    }

    /// <summary>Least processor milliseconds for carving a fresh block; the block itself is not counted.</summary>
    private static double Carve(Motion[] motions)
    {
        BlockGrid grid = new(new Box2(0, 0, 216, 216), 0.1, 0, 20);
        return Least(
            CarveRuns,
            () => grid.TopHeights.Alike.Fill(20f),
            () =>
            {
                Carver carver = new(grid);
                foreach (Motion motion in motions)
                {
                    carver.Cut(motion, Cutter, 5);
                }
            }
        );
    }

    private static double Judge(string file)
    {
        PipelineResult made = Pipeline.Make(DemoRequests.Of(file));
        ProgramText top = made.Programs.First(p => p.Setup == Setup.Top);
        VerifyRequest request = new(made.Job!, made.Design!, [top], Limits.House) { Drawing = made.Designed!.Part };
        return Least(JudgeRuns, () => { }, () => Verifier.Judge(request));
    }

    private static double Least(int runs, Action before, Action run)
    {
        double least = double.MaxValue;
        for (int i = 0; i < runs; i++)
        {
            before();
            TimeSpan start = Environment.CpuUsage.TotalTime;
            run();
            least = Math.Min(least, (Environment.CpuUsage.TotalTime - start).TotalMilliseconds);
        }
        return least;
    }

    private static void Print(string what, double ms, double fill) =>
        Console.WriteLine(
            string.Create(CultureInfo.InvariantCulture, $"{what, -22} {ms, 9:0.00} ms {ms / fill, 8:0.00} fills")
        );

    /// <summary>Ten metres of parallel lines 4 mm apart, half a degree off the direction and up to 200 mm long, inside the block.</summary>
    private static Motion[] Slots(double deg, double fromZ, double toZ)
    {
        (double sin, double cos) = Math.SinCos((deg + 0.5) * Math.PI / 180);
        List<Motion> slots = [];
        double left = Metres;
        while (left > 0)
        {
            for (double beside = -98; beside <= 98 && left > 0; beside += 4)
            {
                double half = Half(sin, cos, beside);
                double x = 108 - (beside * sin);
                double y = 108 + (beside * cos);
                slots.Add(Line(x - (half * cos), y - (half * sin), x + (half * cos), y + (half * sin), fromZ, toZ));
                left -= 2 * half;
            }
            (fromZ, toZ) = (fromZ - 1, toZ - 1);
        }
        return [.. slots];
    }

    /// <summary>Half a line through the square of 200 mm, so far beside its middle: up to where it leaves it, 100 mm at most.</summary>
    private static double Half(double sin, double cos, double beside) =>
        Math.Min(
            100,
            Math.Min((100 - Math.Abs(beside * sin)) / Math.Abs(cos), (100 - Math.Abs(beside * cos)) / Math.Abs(sin))
        );

    /// <summary>Rings 2.54 mm apart until ten metres are full; the number of chords keeps each within 0.005 mm of its circle.</summary>
    private static IEnumerable<Motion> Rings(Func<double, int, IEnumerable<Motion>> ring)
    {
        double left = Metres;
        for (double r = 100; left > 0 && r > 4; r -= 2.54)
        {
            left -= 2 * Math.PI * r;
            int chords = (int)Math.Ceiling(Math.PI / Math.Acos(1 - (0.005 / r)));
            foreach (Motion motion in ring(r, chords))
            {
                yield return motion;
            }
        }
    }

    private static IEnumerable<Motion> Chord(double r, int k, int of)
    {
        (double s0, double c0) = Math.SinCos(2 * Math.PI * k / of);
        (double s1, double c1) = Math.SinCos(2 * Math.PI * (k + 1) / of);
        yield return Line(108 + (r * c0), 108 + (r * s0), 108 + (r * c1), 108 + (r * s1), 18, 18);
    }

    private static Motion Arc(double r, int half)
    {
        double side = half == 0 ? r : -r;
        Point3 from = new(108 + side, 108, 18);
        Point3 to = new(108 - side, 108, 18);
        return new Motion(1, MotionKind.ArcCcw, from, to, new Point2(108, 108), 1000, 1);
    }

    private static Motion Line(double x0, double y0, double x1, double y1, double z0, double z1) =>
        new(1, MotionKind.Line, new Point3(x0, y0, z0), new Point3(x1, y1, z1), default, 1000, 1);
}

using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Output.Reports;

/// <summary>
/// Minutes of each operation. The judge times tools, not operations; a tool's minutes are shared among its operations by
/// their path lengths over feeds, so that a program's operations add up to the judge's time of its tools.
/// </summary>
internal static class OperationMinutes
{
    public static ImmutableArray<double> Share(ProgramPlan plan, ProgramVerdict? verdict, Machine machine)
    {
        Operation[] operations = [.. plan.Steps.Select(s => s.Operation).OfType<Operation>()];
        double[] own = [.. operations.Select(o => Bare(o, machine))];
        return
        [
            .. operations.Select(
                (o, i) =>
                {
                    double all = operations.Select((p, k) => p.Tool.Number == o.Tool.Number ? own[k] : 0).Sum();
                    double? judged = verdict?.Tools.Where(t => t.Tool == o.Tool.Number).Sum(t => t.Minutes);
                    return judged is { } minutes && all > 0 ? minutes * own[i] / all : own[i];
                }
            ),
        ];
    }

    /// <summary>Path length over feed, minutes, without accelerations.</summary>
    private static double Bare(Operation operation, Machine machine)
    {
        double minutes = 0;
        Point3? at = null;
        foreach (Move move in operation.Moves)
        {
            if (at is { } from)
            {
                minutes += move switch
                {
                    LineMove line => Length(from, line.To) / line.FeedMmPerMin,
                    ArcMove arc => ArcLength(from, arc) / arc.FeedMmPerMin,
                    DrillMove drill => ((drill.RetractZ - drill.BottomZ) / drill.FeedMmPerMin)
                        + (drill.DwellSeconds / 60),
                    _ => Length(from, move.To) / machine.RapidMmPerMin,
                };
            }
            at = move.To;
        }
        return minutes;
    }

    private static double Length(Point3 a, Point3 b)
    {
        double z = b.Z - a.Z;
        double xy = a.Xy.DistanceTo(b.Xy);
        return Math.Sqrt((xy * xy) + (z * z));
    }

    private static double ArcLength(Point3 from, ArcMove arc)
    {
        bool full = from.Xy.DistanceTo(arc.To.Xy) < 1e-9;
        double radius = from.Xy.DistanceTo(arc.Centre);
        double sweep = full ? 2 * Math.PI : Math.Abs(Segment.Arc(from.Xy, arc.To.Xy, arc.Centre, arc.Ccw).Sweep);
        double z = arc.To.Z - from.Z;
        return Math.Sqrt((sweep * radius * sweep * radius) + (z * z));
    }
}

using FixtureGen.Holding.Sliding;
using FixtureGen.Model;

namespace FixtureGen.Holding.Stopping;

/// <summary>
/// "Does it stay": the least multiplier along the trim once the part may slip onto its stops. Every section of the trim is
/// asked where it holds least without them, and then the steps beside the worst of those, down to the next.
/// </summary>
internal sealed class Staying(TrimLoads loads, StopSet stops)
{
    private const int Sections = 20;

    /// <summary>So many of the worst steps found are looked beside, nearer and nearer.</summary>
    private const int Deepest = 2;

    /// <summary>An edge position nearer than this to the one solved is the same, radians.</summary>
    private const double SameAngle = 0.1;

    private bool HasStops => stops.Before.Length + stops.Outline.Length > 0;

    /// <summary>The least multiplier under full load, and under the load left while the machine stops, with how the part gives way.</summary>
    /// <param name="heldIn">The ways to be held in each seal state, the lowest counts; none where nothing holds.</param>
    /// <param name="put">The answers without stops under full load.</param>
    public (Stay Full, Stay Stopping) Least(IReadOnlyList<HeldPart[]> heldIn, StepFactor[] put)
    {
        if (heldIn.Count == 0 || !HasStops)
        {
            Stay[] same = [.. put.Select(p => new Stay(p.Factor, p.Mode))];
            return (Worst(same, _ => 1), Worst(same, StopShare));
        }
        int section = (put.Length + Sections - 1) / Sections;
        var at = new Stay[put.Length];
        Array.Fill(at, new Stay(double.MaxValue, HoldMode.Slide));
        int[] weakest =
        [
            .. Enumerable
                .Range(0, (put.Length + section - 1) / section)
                .Select(s => Enumerable.Range(s * section, Math.Min(section, put.Length - (s * section))))
                .Select(steps => steps.MinBy(i => put[i].Factor)),
        ];
        Solve(weakest, heldIn, put, at);
        for (int apart = section / 2; apart >= 1; apart /= 2)
        {
            int[] beside =
            [
                .. Enumerable
                    .Range(0, put.Length)
                    .Where(i => at[i].Factor < double.MaxValue)
                    .OrderBy(i => at[i].Factor)
                    .Take(Deepest)
                    .SelectMany(i => new[] { i - apart, i + apart })
                    .Where(i => i >= 0 && i < put.Length && at[i].Factor == double.MaxValue)
                    .Distinct(),
            ];
            Solve(beside, heldIn, put, at);
        }
        return (Worst(at, _ => 1), Worst(at, StopShare));
    }

    private double StopShare(int step) => loads.Works[loads.Steps[step].Work].StopShare;

    private static Stay Worst(Stay[] at, Func<int, double> share)
    {
        Stay worst = new(double.MaxValue, HoldMode.Slide);
        for (int i = 0; i < at.Length; i++)
        {
            double factor = at[i].Factor == double.MaxValue ? double.MaxValue : at[i].Factor / share(i);
            worst = factor < worst.Factor ? new Stay(factor, at[i].Mode) : worst;
        }
        return worst with { Factor = Math.Min(LimitState.Most, worst.Factor) };
    }

    private void Solve(int[] steps, IReadOnlyList<HeldPart[]> heldIn, StepFactor[] put, Stay[] at) =>
        Parallel.ForEach(
            steps,
            new ParallelOptions { MaxDegreeOfParallelism = TaskScheduler.Current == TaskScheduler.Default ? -1 : 1 },
            step => at[step] = StayAt(step, heldIn, put[step])
        );

    private Stay StayAt(int step, IReadOnlyList<HeldPart[]> heldIn, StepFactor put)
    {
        TrimWork work = loads.Works[loads.Steps[step].Work];
        IReadOnlyList<ShellStop> here = work.IsOutline ? stops.Outline : stops.Before;
        Stay least = new(here.Count == 0 ? put.Factor : double.MaxValue, put.Mode);
        foreach (HeldPart held in here.Count == 0 ? [] : heldIn[work.Seal])
        {
            StopGrips grips = new(here, held.Nodes);
            LimitAnswer answer = StopLimit.Solve(held, grips, loads.Load(step, put.Angle), put.Factor);
            double angle = loads.WorstAngle(step, held.Nodes, answer, put.Angle);
            if (Math.Abs(angle - put.Angle) > SameAngle)
            {
                LimitAnswer turned = StopLimit.Solve(held, grips, loads.Load(step, angle), answer.Factor);
                answer = turned.Factor < answer.Factor ? turned : answer;
            }
            least = answer.Factor < least.Factor ? new Stay(answer.Factor, answer.Mode) : least;
        }
        return least.Factor >= put.Factor ? least : new Stay(put.Factor, put.Mode);
    }
}

/// <summary>The multiplier at which a part gives way that may lean on its stops, and how.</summary>
internal readonly record struct Stay(double Factor, HoldMode Mode);

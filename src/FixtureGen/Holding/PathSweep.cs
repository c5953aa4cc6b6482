namespace FixtureGen.Holding;

/// <summary>The least multiplier at one step and how it gives way.</summary>
internal readonly record struct StepFactor(double Factor, Model.HoldMode Mode, double Angle);

/// <summary>
/// Solves the limit state at every step of the trim. A step starts from its neighbour's answer; runs of a fixed length are
/// shared out over the cores, so the result does not depend on how many there are.
/// </summary>
internal static class PathSweep
{
    private const int Run = 80;

    /// <summary>The least steps of their neighbourhood within this of the worst get a closer look: no finer edge position lowers a step by more.</summary>
    private const double CloseToWorst = 1.08;
    private const int MostLookedAt = 12;

    /// <param name="loads">The trim's loads.</param>
    /// <param name="heldIn">The pressures to try in each seal state; the lowest answer counts.</param>
    public static StepFactor[] Full(TrimLoads loads, IReadOnlyList<HeldPart[]> heldIn)
    {
        var answers = new StepFactor[loads.Steps.Length];
        int runs = (answers.Length + Run - 1) / Run;
        Parallel.For(
            0,
            runs,
            run => Solve(loads, heldIn, run * Run, Math.Min(answers.Length, (run + 1) * Run), answers)
        );
        double worst = answers.Min(a => a.Factor);
        int[] close =
        [
            .. Enumerable
                .Range(0, answers.Length)
                .Where(i => answers[i].Factor <= CloseToWorst * worst && IsValley(answers, i))
                .OrderBy(i => answers[i].Factor)
                .Take(MostLookedAt),
        ];
        Parallel.ForEach(close, step => LookClosely(loads, heldIn, step, answers));
        return answers;
    }

    private static bool IsValley(StepFactor[] answers, int i) =>
        (i == 0 || answers[i].Factor <= answers[i - 1].Factor)
        && (i == answers.Length - 1 || answers[i].Factor <= answers[i + 1].Factor);

    private static void LookClosely(TrimLoads loads, IReadOnlyList<HeldPart[]> heldIn, int step, StepFactor[] answers)
    {
        HeldPart[] held = heldIn[loads.Works[loads.Steps[step].Work].Seal];
        foreach (HeldPart part in held)
        {
            LimitAnswer last = default;
            foreach (double angle in TrimLoads.FineAngles)
            {
                last = LimitState.Solve(part, loads.Load(step, angle), last);
                if (last.Factor < answers[step].Factor)
                {
                    answers[step] = new StepFactor(last.Factor, last.Mode, angle);
                }
            }
        }
    }

    private static void Solve(TrimLoads loads, IReadOnlyList<HeldPart[]> heldIn, int from, int to, StepFactor[] answers)
    {
        ReadOnlySpan<double> angles = TrimLoads.EdgeAngles;
        int pressures = heldIn.Max(h => h.Length);
        var last = new LimitAnswer[angles.Length * pressures];
        for (int step = from; step < to; step++)
        {
            HeldPart[] held = heldIn[loads.Works[loads.Steps[step].Work].Seal];
            var worst = new StepFactor(double.MaxValue, default, 0);
            for (int a = 0; a < angles.Length; a++)
            {
                CutLoad load = loads.Load(step, angles[a]);
                for (int p = 0; p < held.Length; p++)
                {
                    ref LimitAnswer start = ref last[(a * pressures) + p];
                    start = LimitState.Solve(held[p], load, start);
                    if (start.Factor < worst.Factor)
                    {
                        worst = new StepFactor(start.Factor, start.Mode, angles[a]);
                    }
                }
            }
            answers[step] = worst;
        }
    }
}

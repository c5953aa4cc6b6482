namespace FixtureGen.Holding.Sliding;

/// <summary>The least multiplier at one step, how it gives way, the edge position that does it, and which of the ways to be held it is.</summary>
internal readonly record struct StepFactor(double Factor, FixtureGen.Model.HoldMode Mode, double Angle, int Way);

/// <summary>
/// Solves the limit state at every step of the trim, the least over pressures and edge positions. A step starts from its
/// neighbour's answer; runs of a fixed length are shared out over the cores, so the result does not depend on their number. A
/// caller with a scheduler of its own has the cores busy already: then one run follows the other.
/// </summary>
internal static class PathSweep
{
    private const int Run = 80;

    /// <summary>Every so many steps, and wherever the way turns, all edge positions are tried afresh.</summary>
    private const int Afresh = 3;
    private const double StraightOn = 0.99;

    /// <summary>An edge position nearer than this to the one solved is the same, radians; the factor is flat there: turned parts then agree within 0.06 %.</summary>
    private const double SameAngle = 0.01;

    /// <summary>One sweep of the trim for each of several ways in which the part is held.</summary>
    /// <param name="loads">The trim's loads.</param>
    /// <param name="held">For each sweep the pressures to try in each seal state, the lowest answer counts; none where nothing holds.</param>
    public static StepFactor[][] Full(TrimLoads loads, params IReadOnlyList<HeldPart[]>[] held)
    {
        int steps = loads.Steps.Length;
        StepFactor[][] answers = [.. held.Select(_ => new StepFactor[steps])];
        int runs = (steps + Run - 1) / Run;
        Parallel.For(
            0,
            runs * held.Length,
            new ParallelOptions { MaxDegreeOfParallelism = TaskScheduler.Current == TaskScheduler.Default ? -1 : 1 },
            i =>
            {
                (int sweep, int run) = Math.DivRem(i, runs);
                Solve(loads, held[sweep], run * Run, Math.Min(steps, (run + 1) * Run), answers[sweep]);
            }
        );
        return answers;
    }

    private static void Solve(TrimLoads loads, IReadOnlyList<HeldPart[]> heldIn, int from, int to, StepFactor[] answers)
    {
        if (heldIn.Count == 0)
        {
            Array.Fill(answers, new StepFactor(0, FixtureGen.Model.HoldMode.Lift, 0, 0), from, to - from);
            return;
        }
        int pressures = heldIn.Max(h => h.Length);
        Span<Track> tracks = stackalloc Track[pressures];
        for (int step = from; step < to; step++)
        {
            HeldPart[] held = heldIn[loads.Works[loads.Steps[step].Work].Seal];
            bool afresh = (step - from) % Afresh == 0 || Turned(loads, step);
            var worst = new StepFactor(double.MaxValue, default, 0, 0);
            for (int p = 0; p < held.Length; p++)
            {
                ref Track track = ref tracks[p];
                if (afresh || track.Answer.Mode != FixtureGen.Model.HoldMode.Slide)
                {
                    Begin(loads, step, held[p], ref track);
                }
                Follow(loads, step, held[p], ref track, solved: afresh);
                if (track.Answer.Factor < worst.Factor)
                {
                    worst = new StepFactor(track.Answer.Factor, track.Answer.Mode, track.Angle, p);
                }
            }
            answers[step] = worst;
        }
    }

    /// <summary>Tries every edge position and keeps the worst.</summary>
    private static void Begin(TrimLoads loads, int step, HeldPart held, ref Track track)
    {
        LimitAnswer start = track.Answer;
        Track? worst = null;
        foreach (double angle in TrimLoads.EdgeAngles)
        {
            start = LimitState.Solve(held, loads.Load(step, angle), start);
            worst = worst is null || start.Factor < worst.Value.Answer.Factor ? new Track(start, angle) : worst;
        }
        track = worst!.Value;
    }

    /// <summary>Turns the edge to where it is worst for the twist found, and solves again, until it stays.</summary>
    private static void Follow(TrimLoads loads, int step, HeldPart held, ref Track track, bool solved)
    {
        if (!solved)
        {
            track = new Track(LimitState.Solve(held, loads.Load(step, track.Angle), track.Answer), track.Angle);
        }
        for (int turn = 0; turn < 3 && track.Answer.Mode == FixtureGen.Model.HoldMode.Slide; turn++)
        {
            double angle = loads.WorstAngle(step, held.Nodes, track.Answer, track.Angle);
            if (Math.Abs(angle - track.Angle) < SameAngle)
            {
                break;
            }
            LimitAnswer answer = LimitState.Solve(held, loads.Load(step, angle), track.Answer);
            if (answer.Factor >= track.Answer.Factor)
            {
                break;
            }
            track = new Track(answer, angle);
        }
    }

    /// <summary>A corner or another cut: nothing that was seen a step ago need hold.</summary>
    private static bool Turned(TrimLoads loads, int step)
    {
        TrimStep now = loads.Steps[step];
        TrimStep before = loads.Steps[step - 1];
        return now.Work != before.Work || now.Travel.Dot(before.Travel) < StraightOn;
    }

    private readonly record struct Track(LimitAnswer Answer, double Angle);
}

using FixtureGen.Model;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Holding;

/// <summary>
/// The hold of the shell, worked out from the program's own feeds, speeds and depths: whether it stays put on vacuum alone at every
/// cut, and whether it stays on magnets alone, its stops counted, while the machine stops after the seal was lost; where magnets are the
/// hold, whether it stays put on them at every cut.
/// </summary>
internal static class ShellOnBlock
{
    public static ProgramHold Judge(Run run, CutScan scan, TrimStates states)
    {
        if (scan.Cuts.Count == 0)
        {
            return ProgramHold.None;
        }
        ShellHeld held = new(run.Job, run.Design);
        HouseLimits limits = run.Job.Limits;
        HoldFindings say = new(run);
        if (run.ByMagnets)
        {
            return new ProgramHold(null, say.Place(PutByMagnets(run, scan, held, say)), []);
        }
        HoldSearch vacuum = OnVacuum(scan, states, held);
        HeldCut? worst = vacuum.Worst();
        say.Trim(vacuum.FirstBelow(limits.VacuumFactor), worst, limits.VacuumFactor, "vacuum alone", (_, _) => 1);
        StoppingShare share = new(run.Job.Plate.Machine, held.Slip);
        HoldSearch magnets = OnMagnets(
            run,
            scan,
            states,
            held,
            cut => share.Left(say.MotionBehind(cut).FeedMmPerMin, cut.ChipMm)
        );
        HeldCut? least = magnets.Worst();
        say.Trim(
            magnets.FirstBelow(limits.MagnetFactor),
            least,
            limits.MagnetFactor,
            "magnets alone while the machine stops",
            share.Left
        );
        return new ProgramHold(say.Place(worst), say.Place(least), []);
    }

    /// <summary>Magnets as the hold: no slip at all under the full force of every cut, no stop counted. The cut that is held least.</summary>
    private static HeldCut? PutByMagnets(Run run, CutScan scan, ShellHeld held, HoldFindings say)
    {
        Lazy<Held[]> ways = new(() => held.Rests ? held.OnMagnets([]) : []);
        Tables tables = new(Box(scan.Cuts));
        HoldSearch search = new(
            scan.Cuts,
            cut => ways.Value.Length == 0 ? null : tables.Get(cut.Pattern, 0, () => ways.Value),
            cut => cut.ForceN
        );
        double limit = run.Job.Limits.VacuumFactor;
        HeldCut? worst = search.Worst();
        say.Trim(search.FirstBelow(limit), worst, limit, "magnets alone", (_, _) => 1);
        return worst;
    }

    private static HoldSearch OnVacuum(CutScan scan, TrimStates states, ShellHeld held)
    {
        Tables tables = new(Box(scan.Cuts));
        // states with the same zones open share their list of them
        int[] alike = [.. states.All.Select(s => states.All.Index().First(o => o.Item.Open == s.Open).Index)];
        return new HoldSearch(
            scan.Cuts,
            cut =>
                held.Rests
                    ? tables.Get(cut.Pattern, alike[cut.State], () => held.OnVacuum(states.All[cut.State].Open))
                    : null,
            cut => cut.ForceN
        );
    }

    private static HoldSearch OnMagnets(
        Run run,
        CutScan scan,
        TrimStates states,
        ShellHeld held,
        Func<Cut, double> share
    )
    {
        ShellStops stops = new(run.Job, run.Design);
        Lazy<Held[]> whole = new(() => held.OnMagnets(stops.Whole));
        Lazy<Held[]> cutting = new(() => [.. stops.Cut.SelectMany(held.OnMagnets)]);
        Tables tables = new(Box(scan.Cuts));
        return new HoldSearch(
            scan.Cuts,
            cut =>
            {
                bool outline = states.All[cut.State].Outline;
                Held[] ways = held.Rests ? (outline ? cutting : whole).Value : [];
                return ways.Length == 0 ? null : tables.Get(cut.Pattern, outline ? 1 : 0, () => ways);
            },
            cut => cut.ForceN * share(cut)
        );
    }

    private static Box2 Box(IReadOnlyList<Cut> cuts) =>
        new(cuts.Min(c => c.At.X), cuts.Min(c => c.At.Y), cuts.Max(c => c.At.X), cuts.Max(c => c.At.Y));
}

using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Verify.Runs;

namespace FixtureGen.Verify.Corners;

/// <summary>
/// A program judged again at the corners of what a shop cannot hold exactly: stock thickness, placing, run-out and tool length, from
/// the shop's files where they say it. All are tried at once first, since each of them only ever brings things nearer; only where
/// that fails are they tried alone, so that the finding can say which of them it is. The thinnest blank is asked apart.
/// </summary>
internal static class CornerCheck
{
    public static void Check(Run run)
    {
        Thin(run);
        Corner all = All(run);
        if (all.IsNone)
        {
            return;
        }
        ImmutableArray<Faulty> worst = new CornerPass(run, all).Find();
        if (worst.IsEmpty)
        {
            return;
        }
        Corner none = new("", 0, 0, 0, 0);
        HashSet<(CornerFault, int)> known = [.. new CornerPass(run, none).Find().Select(f => (f.Fault, f.Line))];
        Corner[] alone =
        [
            none with
            {
                Name = Thick(run, all),
                Thicker = all.Thicker,
            },
            none with
            {
                Name = FormattableString.Invariant($"placed {all.Off:0.###} mm off"),
                Off = all.Off,
            },
            none with
            {
                Name = FormattableString.Invariant($"a run-out of {all.Wider:0.###} mm"),
                Wider = all.Wider,
            },
            none with
            {
                Name = FormattableString.Invariant($"a tool {all.Longer:0.###} mm longer"),
                Longer = all.Longer,
            },
        ];
        foreach (Corner corner in alone.Append(all))
        {
            IEnumerable<Faulty> found = corner == all ? worst : new CornerPass(run, corner).Find();
            foreach (Faulty fault in found.Where(f => known.Add((f.Fault, f.Line))))
            {
                Say(run, corner, fault);
            }
        }
    }

    /// <summary>The one corner that takes away: the skim must still reach the face of the thinnest blank.</summary>
    private static void Thin(Run run)
    {
        double thinner = run.Job.BlankTolerance;
        double missed = run.Design.SkimmedZ - (run.Job.BlankThickness - thinner);
        if (run.Setup == Setup.Top && missed > 1e-6 && run.Design.Removals.Any(r => r.Kind == FeatureKind.Skim))
        {
            run.Log.Error(
                "corner",
                0,
                $"with a blank {thinner:0.###} mm thinner the face stays raw, {missed:0.###} mm below what is skimmed",
                "Measure the block and state its thickness, or cut the face lower"
            );
        }
    }

    private static Corner All(Run run)
    {
        Shell shell = run.Job.Shell;
        double thicker =
            run.Setup == Setup.Trim ? Math.Max(0, shell.ThicknessMax - shell.Thickness) : run.Job.BlankTolerance;
        double off = run.Setup == Setup.Trim ? 0 : run.Job.Plate.PlacingTolerance;
        double wider = run.Cutters.Values.Select(c => c.Tool.RunOut).DefaultIfEmpty(0).Max();
        return new Corner("all of them at once", thicker, off, wider, Corner.ToolLength);
    }

    private static string Thick(Run run, Corner all) =>
        FormattableString.Invariant(
            $"a {(run.Setup == Setup.Trim ? "shell" : "blank")} {all.Thicker:0.###} mm thicker"
        );

    private static void Say(Run run, Corner corner, Faulty fault)
    {
        string what = fault.Fault switch
        {
            CornerFault.Rapid => "a rapid runs into what stands, ",
            CornerFault.Shank => "the tool's shank meets what stands, ",
            CornerFault.Holder => "the tool's holder meets what stands, ",
            CornerFault.Deep => "a pass is deeper than its cutter bears, ",
            CornerFault.Rim => "a rim of the raw face is left, ",
        };
        run.Log.Error(
            "corner",
            fault.Line,
            $"with {corner.Name} {what}{fault.Amount:0.###} mm",
            "Leave more room: what the shop cannot hold exactly must not matter",
            fault.At
        );
    }
}

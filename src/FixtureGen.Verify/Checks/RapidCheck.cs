using FixtureGen.Model;
using FixtureGen.Verify.Carving;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Checks;

/// <summary>
/// Every rapid against the block as it stands: written out, inside a drilling cycle, and with an engraver over a shell. It must keep
/// its distance from material wherever the control's axes may run; back down the hole that the tool came from, less will do.
/// </summary>
internal sealed class RapidCheck(Run run)
{
    private readonly RapidSpace _space = new(run.Grid);

    /// <summary>A shell may be thicker than it is carved, mm.</summary>
    private readonly double _higher =
        run.Setup == Setup.Trim ? Math.Max(0, run.Job.Shell.ThicknessMax - run.Job.Shell.Thickness) : 0;

    private Point2? _hole;
    private int _tool;

    /// <summary>To be called before the motion is carved.</summary>
    public void Before(Motion motion, Cutter cutter)
    {
        if (Run.IsFeed(motion))
        {
            (_hole, _tool) = (motion.To.Xy, motion.Tool);
            return;
        }
        bool plumb = motion.From.Xy == motion.To.Xy;
        if (plumb && motion.To.Z >= motion.From.Z)
        {
            return;
        }
        bool back = plumb && _tool == motion.Tool && _hole is { } hole && hole.DistanceTo(motion.To.Xy) < 1e-6;
        double wanted = back ? JudgeRules.PeckGap : JudgeRules.RapidGap;
        Box2 ground = RapidSpace.Ground(motion);
        double radius = cutter.Radius - JudgeRules.RapidSlack;
        if (_space.Gap(ground, Run.Low(motion), cutter, radius, _higher) is { } gap && gap < wanted - 1e-6)
        {
            Tell(motion, gap, ground.Width > 1e-6 && ground.Height > 1e-6);
        }
    }

    private void Tell(Motion motion, double gap, bool slanted)
    {
        string what =
            gap < 0
                ? FormattableString.Invariant($"runs {-gap:0.###} mm deep into material")
                : FormattableString.Invariant($"comes within {gap:0.###} mm of material");
        string how = slanted ? ", if not straight then where its axes run one by one" : "";
        run.Log.Error(
            "rapid-through-stock",
            motion.Line,
            $"a rapid at Z {Run.Low(motion):0.###} {what}{how}",
            "Retract first, or feed the last part (G1); in a drilling cycle raise R",
            motion.To.Xy
        );
    }
}

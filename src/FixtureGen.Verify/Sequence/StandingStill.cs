using FixtureGen.Model;
using FixtureGen.Verify.Carving;
using FixtureGen.Verify.Reading;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Sequence;

/// <summary>
/// What must not happen while the cutter stands in what it cuts: a dwell (it rubs, plastics melt), the spindle stopped, turned the other
/// way or given another speed (the next chip breaks the edge).
/// </summary>
internal sealed class StandingStill(Run run, Carver carver)
{
    private (double Rpm, int Tool) _last;

    /// <summary>To be called with every event in its place, before a motion is carved.</summary>
    public void Before(ProgramEvent e)
    {
        if (e.Kind == EventKind.Motion)
        {
            bool changes = _last.Tool == e.State.Tool && _last.Rpm > 0 && Math.Abs(_last.Rpm - e.State.Rpm) > 0.5;
            if (changes && Run.IsFeed(e.Motion))
            {
                Tell(e, "the spindle's speed changes");
            }
            _last = (e.State.Rpm, e.State.Tool);
        }
        else if (e.Kind == EventKind.Dwell && e.State.Spindle != SpindleTurn.Off)
        {
            Tell(e, FormattableString.Invariant($"the program waits {e.Seconds:0.###} s"));
        }
        else if (e.Kind == EventKind.Spindle && e.State.Spindle != SpindleTurn.Clockwise)
        {
            Tell(e, "the spindle is stopped or turned the other way");
        }
    }

    private void Tell(ProgramEvent e, string what)
    {
        Point3 at = e.Motion.From;
        if (at.Z >= run.StockTop || run.Cutters.GetValueOrDefault(e.State.Tool) is not { } cutter)
        {
            return;
        }
        double reach = cutter.Radius + run.Grid.Cell;
        float? highest = carver.Highest(Piece.Line(at.Xy, at.Xy), reach);
        if (highest is { } top && top > at.Z + JudgeRules.AirGap)
        {
            run.Log.Error(
                "stops-in-work",
                e.Line,
                $"{what} while the tip stands at Z {at.Z:0.###}, {top - at.Z:0.##} mm deep in material",
                "Retract first",
                at.Xy
            );
        }
    }
}

using FixtureGen.Model;
using FixtureGen.Verify.Carving;
using FixtureGen.Verify.Reading;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Checks;

/// <summary>
/// A block being cut is held by the plate's vacuum: a motion that opens it inside the plate's seal must come after a stop at
/// which the operator was asked to fit the bolts.
/// </summary>
internal sealed class SealCheck
{
    private readonly Run _run;
    private readonly Area _seal;
    private readonly float _highestBottom;

    public SealCheck(Run run)
    {
        _run = run;
        _seal = new Area(Region.From(run.Job.Plate.SealLoop));
        _highestBottom = run.Setup == Setup.Trim ? float.MinValue : run.Grid.BottomHeights.Highest();
    }

    /// <summary>Whether the block has been opened inside the seal: the plate's vacuum holds it no more.</summary>
    public bool Opened { get; private set; }

    /// <summary>To be called after the motion was carved; one that took nothing opened nothing.</summary>
    public void After(ProgramEvent e, Motion motion, Cutter cutter, Carver carver, Tally tally)
    {
        if (Opened || tally.Removed <= 0 || Run.Low(motion) > _highestBottom + 1e-3)
        {
            return;
        }
        if (carver.FirstOpen(Piece.From(motion), cutter.Radius, _seal.Contains) is { } at)
        {
            Opened = true;
            if (e.State.Bolted)
            {
                return;
            }
            _run.Log.Error(
                "bolts-not-fitted",
                motion.Line,
                $"the block is opened inside the plate's seal at X {at.X:0.##} Y {at.Y:0.##} before any stop to fit the bolts",
                $"Stop ({_run.Job.Control.Stop}) with a comment that says which bolts to fit",
                at
            );
        }
    }
}

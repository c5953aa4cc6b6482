using FixtureGen.Model;
using FixtureGen.Verify.Carving;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Checks;

/// <summary>
/// With the spindle clockwise a cutter climbs along a wall on its right. One that takes material along a wall on its left cuts
/// against the climb: it is drawn into the wall, and in plastics it rubs and cuts its chips again. Between two walls it does both.
/// </summary>
internal sealed class ClimbCheck(Run run, AllowedShape shape)
{
    /// <summary>A cutter whose rim is this near a wall runs along it, mm.</summary>
    private const double Near = 0.05;

    /// <summary>Shorter ways against the climb, mm, are ends and joints.</summary>
    private const double LeastRun = 5;

    private double _against;
    private Motion _first;

    public void Check()
    {
        foreach ((int index, Reading.ProgramEvent e, Motion motion) in run.Motions())
        {
            if (!Run.IsFeed(motion) || e.IsCycle || Run.Low(motion) >= shape.Top)
            {
                Say();
                continue;
            }
            if (
                run.CutterOf(motion) is { Tool.Kind: ToolKind.EndMill, Shape: CutterShape.Flat } cutter
                && run.Tallies[index].Removed > JudgeRules.NoMaterial
                && Piece.From(motion) is { Length: > Near } piece
                && Against(piece, Run.Low(motion), cutter.Radius)
            )
            {
                _first = _against > 0 ? _first : motion;
                _against += piece.Length;
            }
        }
        Say();
    }

    private bool Against(Piece piece, double z, double radius)
    {
        int level = shape.Level(z + run.Limits.Gouge);
        if (level < 0)
        {
            return false;
        }
        PieceBins walls = shape.Walls(level);
        Point2 at = piece.PointAt(0.5);
        Point2 left = piece.Tangent(0.5).Left * radius;
        return walls.Nearest(at + left, Near).Distance <= Near && walls.Nearest(at - left, Near).Distance > Near;
    }

    private void Say()
    {
        if (_against >= LeastRun)
        {
            run.Log.Warn(
                "wall-conventional",
                _first.Line,
                $"{_against:0.#} mm along a wall are cut with the wall on the left: with M3 the cutter climbs only with it on the right",
                "Run the contour the other way round",
                _first.To.Xy
            );
        }
        _against = 0;
    }
}

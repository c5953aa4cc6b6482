using FixtureGen.Model;
using FixtureGen.Verify.Carving;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Checks;

/// <summary>
/// With the spindle clockwise a cutter climbs along a wall on its right. One that takes material along a wall on its left cuts
/// against the climb: it is drawn into the wall, and in plastics it rubs and cuts its chips again. Between two walls it does both.
/// The net's grooves are not asked: no wall of theirs fits anything, and where two run together each has one wall to be cut.
/// </summary>
internal sealed class ClimbCheck(Run run, AllowedShape shape)
{
    /// <summary>A cutter whose rim is this near a wall runs along it, mm.</summary>
    private const double Near = 0.05;

    /// <summary>Shorter ways against the climb, in diameters, are ends, and places where one groove crosses another.</summary>
    private const double LeastRun = 2;

    /// <summary>Both sides are looked at so often along a motion, mm; at most so many times.</summary>
    private const double Step = 1;

    private const int Most = 200;

    private readonly (Area Area, double Floor)[] _nets =
    [
        .. run
            .Design.Removals.Where(r => r.Kind == FeatureKind.Net)
            .SelectMany(r => r.Area.Select(a => (new Area(a), r.FloorZ))),
    ];

    private double _against;
    private double _longest;
    private double _diameter;
    private Motion _first;
    private Motion _worst;

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
                run.CutterOf(motion)
                    is { Tool.Kind: ToolKind.EndMill or ToolKind.FaceMill, Shape: CutterShape.Flat } cutter
                && run.Tallies[index].Removed > JudgeRules.NoMaterial
                && Piece.From(motion) is { Length: > Near } piece
                && !Bores(piece, cutter)
            )
            {
                _diameter = cutter.Tool.Diameter;
                Walk(motion, piece, cutter.Radius);
            }
        }
        Say();
    }

    private void Walk(Motion motion, Piece piece, double radius)
    {
        int n = (int)Math.Clamp(Math.Ceiling(piece.Length / Step), 1, Most);
        for (int i = 0; i < n; i++)
        {
            if (!Against(piece, (i + 0.5) / n, Run.Low(motion), radius))
            {
                _against = 0;
                continue;
            }
            _first = _against > 0 ? _first : motion;
            _against += piece.Length / n;
            if (_against > _longest)
            {
                (_longest, _worst) = (_against, _first);
            }
        }
    }

    /// <summary>Turns so tight that no post can stand in them are told as bores.</summary>
    private static bool Bores(Piece piece, Cutter cutter) => piece.IsArc && piece.R < cutter.Tool.Diameter;

    private bool Against(Piece piece, double t, double z, double radius)
    {
        int level = shape.Level(z + run.Limits.Gouge);
        if (level < 0)
        {
            return false;
        }
        PieceBins walls = shape.Walls(level);
        Point2 at = piece.PointAt(t);
        if (_nets.Any(n => z >= n.Floor - run.Limits.Gouge && n.Area.Contains(at)))
        {
            return false;
        }
        Point2 left = piece.Tangent(t).Left * radius;
        return walls.Nearest(at + left, Near).Distance <= Near && walls.Nearest(at - left, Near).Distance > Near;
    }

    private void Say()
    {
        if (_longest >= LeastRun * _diameter && _longest > 0)
        {
            run.Log.Warn(
                "wall-conventional",
                _worst.Line,
                $"{_longest:0.#} mm along a wall are cut with the wall on the left: with M3 the cutter climbs only with it on the right",
                "Run the contour the other way round",
                _worst.To.Xy
            );
        }
        (_against, _longest) = (0, 0);
    }
}

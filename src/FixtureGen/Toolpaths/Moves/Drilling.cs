using FixtureGen.Cutting;
using FixtureGen.Model;

namespace FixtureGen.Toolpaths.Moves;

/// <summary>A hole drilled until its point is at a height; deeper than three diameters it is pecked (common practice, no source).</summary>
internal static class Drilling
{
    private const double PeckBeyond = 3;

    /// <summary>The lip's corner goes this far past the far face, mm.</summary>
    public const double BreakThrough = 0.3;

    /// <summary>A hole of the shell, down to the point's height that it has; between holes the tool travels at the hop height.</summary>
    public static Piece InShell(DrilledHole hole, CutData data, Heights heights)
    {
        double start = heights.Face + Heights.HopGap;
        double peck =
            heights.Face - hole.FloorZ - hole.Tool.ConeHeight > PeckBeyond * hole.Tool.Diameter
                ? hole.Tool.Diameter
                : 0;
        return new Piece(
            hole.Name,
            [
                new Way(
                    hole.At,
                    hole.At,
                    pen =>
                        pen.Add(
                            new DrillMove(Point3.From(hole.At, heights.Hop), start, hole.FloorZ, peck, 0, data.Feed)
                        )
                ),
            ]
        );
    }

    public static Piece Hole(
        string feature,
        Point2 at,
        Tool drill,
        CutData data,
        Heights heights,
        double topZ,
        double bottom
    )
    {
        double peck =
            topZ - bottom - drill.ConeHeight - BreakThrough > PeckBeyond * drill.Diameter ? drill.Diameter : 0;
        return new Piece(
            feature,
            [
                new Way(
                    at,
                    at,
                    pen => pen.Add(new DrillMove(Point3.From(at, heights.Hop), heights.Hop, bottom, peck, 0, data.Feed))
                ),
            ]
        );
    }
}

using FixtureGen.Model;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Sequence;

/// <summary>Which of the planned trim cuts a motion runs along, and which way.</summary>
internal sealed class TrimPaths(FixtureDesign design)
{
    /// <summary>A motion whose middle is this near a cut's path runs along it, mm.</summary>
    private const double Near = 0.05;

    private readonly (TrimCut Cut, PieceBins Path)[] _cuts =
    [
        .. design.TrimCuts.Select(c => (c, new PieceBins([.. c.Path.Segments.Select(Piece.From)], 5))),
    ];

    /// <summary>The cut, and the cosine between the motion and the cut's planned way: 1 along it, -1 against it. Null beside every path.</summary>
    public (TrimCut Cut, double Sense)? Along(Motion motion)
    {
        Piece piece = Piece.From(motion);
        Point2 middle = piece.PointAt(0.5);
        foreach ((TrimCut cut, PieceBins path) in _cuts)
        {
            (double away, Point2 at) = path.Nearest(middle, Near);
            if (away <= Near)
            {
                Piece planned = path.Pieces.MinBy(p => Distance.To(p, at));
                Point2 way = planned.Tangent(Math.Clamp(Distance.Nearest(planned, at), 0, 1));
                return (cut, way.Dot(piece.Tangent(0.5)));
            }
        }
        return null;
    }
}

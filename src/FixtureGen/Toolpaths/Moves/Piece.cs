using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Toolpaths.Moves;

/// <summary>
/// One way to cut a piece. Cut takes a pen that stands at the hop height above Start and leaves it at the hop height above End.
/// </summary>
internal sealed record Way(Point2 Start, Point2 End, Action<Pen> Cut);

/// <summary>What is cut between two rapids of an operation; never without a way.</summary>
internal sealed record Piece(string Feature, ImmutableArray<Way> Ways)
{
    /// <summary>A piece whose moves are known: they begin and end at the hop height.</summary>
    public static Piece From(string feature, Point2 start, ImmutableArray<Move> moves) =>
        new(
            feature,
            [
                new Way(
                    start,
                    moves[^1].To.Xy,
                    pen =>
                    {
                        foreach (Move move in moves)
                        {
                            pen.Add(move);
                        }
                    }
                ),
            ]
        );
}

using System.Collections.Immutable;
using CsCheck;
using FixtureGen.Model;
using FixtureGen.Toolpaths.Moves;
using FixtureGen.Toolpaths.Routes;
using Xunit;

namespace FixtureGen.Tests.Toolpaths;

public sealed class RouteTest
{
    private static readonly Gen<Point2> Points = Gen.Select(
        Gen.Double[0, 200],
        Gen.Double[0, 200],
        (x, y) => new Point2(x, y)
    );

    private static Piece Run(Point2 a, Point2 b, int i) =>
        new(FormattableString.Invariant($"p{i}"), [new Way(a, b, _ => { }), new Way(b, a, _ => { })]);

    private static double Length(IEnumerable<(Piece Piece, Way Way)> route)
    {
        Way[] ways = [.. route.Select(r => r.Way)];
        return Enumerable.Range(1, Math.Max(0, ways.Length - 1)).Sum(k => ways[k - 1].End.DistanceTo(ways[k].Start));
    }

    [Fact]
    public void Every_piece_is_cut_once_and_the_order_is_the_same_each_time() =>
        Points
            .Select(Points)
            .Array[1, 30]
            .Sample(
                runs =>
                {
                    Piece[] pieces = [.. runs.Select((r, i) => Run(r.Item1, r.Item2, i))];
                    ImmutableArray<(Piece Piece, Way Way)> route = Route.Order(pieces);
                    Assert.Equal(
                        pieces.Select(p => p.Feature).Order(StringComparer.Ordinal),
                        route.Select(r => r.Piece.Feature).Order(StringComparer.Ordinal)
                    );
                    Assert.Equal(route.Select(r => r.Way), Route.Order(pieces).Select(r => r.Way));
                    double drawn = Enumerable
                        .Range(1, pieces.Length - 1)
                        .Sum(k => runs[k - 1].Item2.DistanceTo(runs[k].Item1));
                    Assert.True(Length(route) <= drawn + 1e-6);
                },
                iter: 60,
                threads: 1
            );

    [Fact]
    public void Six_pieces_are_cut_in_the_best_of_all_orders() =>
        Points
            .Select(Points)
            .Array[6]
            .Sample(
                runs =>
                {
                    Piece[] pieces = [.. runs.Select((r, i) => Run(r.Item1, r.Item2, i))];
                    double best = Best(pieces, [], new bool[6], 0, double.PositiveInfinity);
                    Assert.True(Length(Route.Order(pieces)) <= best + 1e-6);
                },
                iter: 25,
                seed: "0N0XIzNsQ0O2",
                threads: 1
            );

    private static double Best(Piece[] pieces, ImmutableList<Way> done, bool[] used, double length, double best)
    {
        if (length >= best)
        {
            return best;
        }
        if (done.Count == pieces.Length)
        {
            return length;
        }
        for (int p = 0; p < pieces.Length; p++)
        {
            if (used[p])
            {
                continue;
            }
            used[p] = true;
            foreach (Way way in pieces[p].Ways)
            {
                double step = done.Count == 0 ? 0 : done[^1].End.DistanceTo(way.Start);
                best = Best(pieces, done.Add(way), used, length + step, best);
            }
            used[p] = false;
        }
        return best;
    }
}

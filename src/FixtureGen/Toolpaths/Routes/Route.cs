using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Toolpaths.Moves;

namespace FixtureGen.Toolpaths.Routes;

/// <summary>
/// The order of an operation's pieces and the way of each, for short rapids. A few pieces are ordered exactly; more by nearest
/// neighbour from several starts, then 2-opt and or-opt on the order in turn with the best ways for that order (by dynamic
/// programming) until neither helps. Same input, same order.
/// </summary>
internal static class Route
{
    private const int MostRounds = 12;

    /// <summary>With more pieces than this fewer starts are tried.</summary>
    private const int Many = 60;

    private const double Gain = 1e-7;

    public static ImmutableArray<(Piece Piece, Way Way)> Order(IReadOnlyList<Piece> pieces)
    {
        if (pieces.Count == 0)
        {
            return [];
        }
        if (pieces.Count <= ShortestRoute.Most)
        {
            return ShortestRoute.Find(pieces);
        }
        int starts = Math.Min(pieces.Count, pieces.Count > Many ? 3 : 8);
        Tour best = Enumerable
            .Range(0, starts)
            .Select(k => Improve(pieces, Nearest(pieces, k * pieces.Count / starts)))
            .MinBy(t => t.Length)!;
        return [.. best.Order.Select((p, i) => (pieces[p], pieces[p].Ways[best.Ways[i]]))];
    }

    private sealed record Tour(int[] Order, int[] Ways, double Length);

    private static int[] Nearest(IReadOnlyList<Piece> pieces, int first)
    {
        int[] order = new int[pieces.Count];
        bool[] done = new bool[pieces.Count];
        order[0] = first;
        done[first] = true;
        Point2 at = pieces[first].Ways[0].End;
        for (int k = 1; k < order.Length; k++)
        {
            (int next, int way, double nearest) = (-1, 0, double.PositiveInfinity);
            for (int p = 0; p < pieces.Count; p++)
            {
                for (int w = 0; !done[p] && w < pieces[p].Ways.Length; w++)
                {
                    double d = at.DistanceTo(pieces[p].Ways[w].Start);
                    (next, way, nearest) = d < nearest - Gain ? (p, w, d) : (next, way, nearest);
                }
            }
            order[k] = next;
            done[next] = true;
            at = pieces[next].Ways[way].End;
        }
        return order;
    }

    private static Tour Improve(IReadOnlyList<Piece> pieces, int[] order)
    {
        Tour tour = BestWays(pieces, order);
        for (int round = 0; round < MostRounds; round++)
        {
            Way[] ways = [.. tour.Order.Select((p, i) => pieces[p].Ways[tour.Ways[i]])];
            Tour next = BestWays(pieces, RouteExchange.Improve(tour.Order, ways));
            if (next.Length >= tour.Length - Gain)
            {
                break;
            }
            tour = next;
        }
        return tour;
    }

    /// <summary>For a fixed order the ways that make the sum of rapids least.</summary>
    private static Tour BestWays(IReadOnlyList<Piece> pieces, int[] order)
    {
        int n = order.Length;
        double[][] cost = new double[n][];
        int[][] from = new int[n][];
        for (int k = 0; k < n; k++)
        {
            ImmutableArray<Way> ways = pieces[order[k]].Ways;
            cost[k] = new double[ways.Length];
            from[k] = new int[ways.Length];
            for (int w = 0; k > 0 && w < ways.Length; w++)
            {
                ImmutableArray<Way> before = pieces[order[k - 1]].Ways;
                cost[k][w] = double.PositiveInfinity;
                for (int b = 0; b < before.Length; b++)
                {
                    double c = cost[k - 1][b] + before[b].End.DistanceTo(ways[w].Start);
                    (cost[k][w], from[k][w]) = c < cost[k][w] - Gain ? (c, b) : (cost[k][w], from[k][w]);
                }
            }
        }
        int[] chosen = new int[n];
        chosen[n - 1] = Array.IndexOf(cost[n - 1], cost[n - 1].Min());
        double length = cost[n - 1][chosen[n - 1]];
        for (int k = n - 1; k > 0; k--)
        {
            chosen[k - 1] = from[k][chosen[k]];
        }
        return new Tour(order, chosen, length);
    }
}

using System.Collections.Immutable;
using FixtureGen.Toolpaths.Moves;

namespace FixtureGen.Toolpaths.Routes;

/// <summary>The very shortest route of a few pieces, by dynamic programming over what is done and where the tool is (Held and Karp).</summary>
internal static class ShortestRoute
{
    /// <summary>More pieces than this take too long.</summary>
    public const int Most = 8;

    public static ImmutableArray<(Piece Piece, Way Way)> Find(IReadOnlyList<Piece> pieces)
    {
        (int Piece, Way Way)[] places = [.. pieces.SelectMany((p, i) => p.Ways.Select(w => (i, w)))];
        int sets = 1 << pieces.Count;
        double[,] least = new double[sets, places.Length];
        int[,] before = new int[sets, places.Length];
        for (int set = 1; set < sets; set++)
        {
            for (int at = 0; at < places.Length; at++)
            {
                int rest = set & ~(1 << places[at].Piece);
                bool first = rest == 0;
                (least[set, at], before[set, at]) =
                    rest == set ? (double.PositiveInfinity, -1)
                    : first ? (0, -1)
                    : Step(least, rest, places, at);
            }
        }
        int last = Enumerable.Range(0, places.Length).MinBy(k => least[sets - 1, k]);
        List<(Piece, Way)> route = [];
        for (int set = sets - 1; last >= 0; )
        {
            route.Add((pieces[places[last].Piece], places[last].Way));
            int from = before[set, last];
            set &= ~(1 << places[last].Piece);
            last = from;
        }
        route.Reverse();
        return [.. route];
    }

    private static (double Length, int From) Step(double[,] least, int rest, (int Piece, Way Way)[] places, int at)
    {
        (double best, int from) = (double.PositiveInfinity, -1);
        for (int k = 0; k < places.Length; k++)
        {
            if ((rest & (1 << places[k].Piece)) != 0)
            {
                double length = least[rest, k] + places[k].Way.End.DistanceTo(places[at].Way.Start);
                (best, from) = length < best - 1e-9 ? (length, k) : (best, from);
            }
        }
        return (best, from);
    }
}

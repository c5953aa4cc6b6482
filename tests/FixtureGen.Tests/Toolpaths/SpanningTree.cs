namespace FixtureGen.Tests.Toolpaths;

/// <summary>
/// A bound from below on the shortest path over all of some nodes. Such a path is a spanning tree in which no node has more
/// than two links, so no path is shorter than the least tree; and by Lagrange's way (Held and Karp, Operations Research 18,
/// 1970) it stays one when each node is charged for its links and refunded for those it may have, whatever the charge. The
/// charges are raised where the tree branches, which brings the bound near to the path.
/// </summary>
internal static class SpanningTree
{
    private const int Rounds = 200;

    /// <summary>Paired: nodes 2k and 2k + 1 are the ends of one stroke, joined for nothing, and take one link each.</summary>
    public static double LeastPath(int nodes, Func<int, int, double> distance, bool paired)
    {
        if (nodes < 2)
        {
            return 0;
        }
        double[,] d = new double[nodes, nodes];
        for (int a = 0; a < nodes; a++)
        {
            for (int b = 0; b < a; b++)
            {
                d[a, b] = d[b, a] = distance(a, b);
            }
        }
        int may = paired ? 1 : 2;
        double[] charge = new double[nodes];
        double best = 0;
        double step = 0;
        for (int round = 0; round < Rounds; round++)
        {
            (double length, int[] links) = Least(d, charge, paired);
            best = Math.Max(best, length - (may * charge.Sum()));
            step = round == 0 ? length / nodes / 2 : step * 0.98;
            for (int k = 0; k < nodes; k++)
            {
                charge[k] = Math.Max(0, charge[k] + (step * (links[k] - may)));
            }
        }
        return best;
    }

    /// <summary>Prim's tree under the charges: its length and how many links each node has, strokes not counted.</summary>
    private static (double Length, int[] Links) Least(double[,] d, double[] charge, bool paired)
    {
        int n = charge.Length;
        double[] nearest = new double[n];
        int[] from = new int[n];
        int[] links = new int[n];
        bool[] joined = new bool[n];
        Array.Fill(nearest, double.PositiveInfinity);
        double total = 0;
        int at = 0;
        nearest[0] = 0;
        from[0] = -1;
        for (int k = 0; k < n; k++)
        {
            joined[at] = true;
            if (from[at] >= 0)
            {
                total += nearest[at];
                links[at]++;
                links[from[at]]++;
            }
            int next = -1;
            for (int p = 0; p < n; p++)
            {
                if (joined[p])
                {
                    continue;
                }
                bool stroke = paired && (p ^ 1) == at;
                double cost = stroke ? double.NegativeInfinity : d[at, p] + charge[at] + charge[p];
                (nearest[p], from[p]) = cost < nearest[p] ? (cost, stroke ? -1 : at) : (nearest[p], from[p]);
                next = next < 0 || nearest[p] < nearest[next] ? p : next;
            }
            at = next;
        }
        return (total, links);
    }
}

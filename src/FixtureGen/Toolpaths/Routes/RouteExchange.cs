using FixtureGen.Toolpaths.Moves;

namespace FixtureGen.Toolpaths.Routes;

/// <summary>
/// 2-opt and or-opt on an order of directed ways: a stretch turned round, or one piece moved, as long as that shortens the
/// rapids. Every trial is judged by its change alone.
/// </summary>
internal sealed class RouteExchange
{
    private const double Gain = 1e-7;

    private readonly int[] _order;
    private readonly Way[] _ways;
    private readonly double[] _forth;
    private readonly double[] _back;

    private RouteExchange(int[] order, Way[] waysInOrder)
    {
        _order = order;
        _ways = waysInOrder;
        _forth = new double[order.Length];
        _back = new double[order.Length];
    }

    /// <summary>The improved order; each piece keeps its way.</summary>
    public static int[] Improve(IReadOnlyList<int> order, IReadOnlyList<Way> waysInOrder)
    {
        RouteExchange exchange = new([.. order], [.. waysInOrder]);
        while (exchange.TurnOne() || exchange.MoveOne()) { }
        return exchange._order;
    }

    private double Gap(int from, int to) => _ways[from].End.DistanceTo(_ways[to].Start);

    /// <summary>Sums of the gaps from the first piece to each, in order and against it.</summary>
    private void Sum()
    {
        for (int k = 1; k < _order.Length; k++)
        {
            _forth[k] = _forth[k - 1] + Gap(k - 1, k);
            _back[k] = _back[k - 1] + Gap(k, k - 1);
        }
    }

    private bool TurnOne()
    {
        Sum();
        int n = _order.Length;
        for (int i = 0; i < n - 1; i++)
        {
            for (int j = i + 1; j < n; j++)
            {
                double change = _back[j] - _back[i] - (_forth[j] - _forth[i]);
                change += i > 0 ? Gap(i - 1, j) - Gap(i - 1, i) : 0;
                change += j < n - 1 ? Gap(i, j + 1) - Gap(j, j + 1) : 0;
                if (change < -Gain)
                {
                    Array.Reverse(_order, i, j - i + 1);
                    Array.Reverse(_ways, i, j - i + 1);
                    return true;
                }
            }
        }
        return false;
    }

    private bool MoveOne()
    {
        int n = _order.Length;
        for (int i = 0; i < n; i++)
        {
            double taken =
                i > 0 && i < n - 1 ? Gap(i - 1, i) + Gap(i, i + 1) - Gap(i - 1, i + 1)
                : i > 0 ? Gap(i - 1, i)
                : n > 1 ? Gap(0, 1)
                : 0;
            for (int after = -1; after < n; after++)
            {
                if (after != i && after != i - 1 && Put(i, after) < taken - Gain)
                {
                    Move(i, after);
                    return true;
                }
            }
        }
        return false;
    }

    /// <summary>What it costs to have piece i right after another, or first.</summary>
    private double Put(int i, int after)
    {
        int next = after + 1;
        double cost = after >= 0 ? Gap(after, i) : 0;
        cost += next < _order.Length ? Gap(i, next) : 0;
        return cost - (after >= 0 && next < _order.Length ? Gap(after, next) : 0);
    }

    private void Move(int i, int after)
    {
        int to = after < i ? after + 1 : after;
        (int piece, Way way) = (_order[i], _ways[i]);
        int step = to > i ? 1 : -1;
        for (int k = i; k != to; k += step)
        {
            (_order[k], _ways[k]) = (_order[k + step], _ways[k + step]);
        }
        (_order[to], _ways[to]) = (piece, way);
    }
}

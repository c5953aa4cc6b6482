using FixtureGen.Model;

namespace FixtureGen.Verify.Holding;

/// <summary>A cut with the multiplier it is held at and how it would give way.</summary>
internal readonly record struct HeldCut(Cut Cut, double Factor, HoldMode Mode);

/// <summary>
/// The worst of many cuts and the first below a limit. Every cut has a bound from the table, which never flatters it; what the bound
/// does not settle is worked out exactly, the least bound first. Past a number of such answers the bounds stand for the rest, so
/// that the work is bounded whatever the program.
/// </summary>
internal sealed class HoldSearch
{
    private const int MostExact = 600;

    private readonly IReadOnlyList<Cut> _cuts;
    private readonly Func<Cut, GiveTable?> _table;
    private readonly Func<Cut, double> _force;
    private readonly double[] _bounds;
    private readonly Dictionary<(Point2, double, CutPattern, int), (double Give, HoldMode Mode)> _known = [];

    /// <param name="table">What holds during a cut; null where nothing does.</param>
    /// <param name="force">Its force, N, as this question counts it.</param>
    public HoldSearch(IReadOnlyList<Cut> cuts, Func<Cut, GiveTable?> table, Func<Cut, double> force)
    {
        (_cuts, _table, _force) = (cuts, table, force);
        _bounds = new double[cuts.Count];
        for (int i = 0; i < _bounds.Length; i++)
        {
            Cut cut = cuts[i];
            double give = table(cut)?.Bound(cut.At, cut.AngleRad) ?? double.PositiveInfinity;
            _bounds[i] = Factor(force(cut), give);
        }
    }

    /// <summary>The cut that is held least, the first of equals; null without any.</summary>
    public HeldCut? Worst()
    {
        int[] order = [.. Enumerable.Range(0, _bounds.Length)];
        Array.Sort([.. _bounds], order);
        HeldCut? worst = null;
        foreach (int i in order)
        {
            if (worst is { } known && _bounds[i] >= known.Factor)
            {
                break;
            }
            HeldCut now = EvaluateCut(i);
            bool less =
                worst is not { } least
                || now.Factor < least.Factor
                || (now.Factor == least.Factor && now.Cut.Motion < least.Cut.Motion);
            worst = less ? now : worst;
        }
        return worst;
    }

    /// <summary>The least held cut of the first motion, in the program's order, that is held less than a limit; null where none is.</summary>
    public HeldCut? FirstBelow(double limit)
    {
        HeldCut? least = null;
        for (int i = 0; i < _bounds.Length; i++)
        {
            if (least is { } known && _cuts[i].Motion != known.Cut.Motion)
            {
                break;
            }
            double below = least?.Factor ?? limit;
            if (_bounds[i] < below && EvaluateCut(i) is { } cut && cut.Factor < below)
            {
                least = cut;
            }
        }
        return least;
    }

    private HeldCut EvaluateCut(int i)
    {
        Cut cut = _cuts[i];
        (Point2, double, CutPattern, int) key = (cut.At, cut.AngleRad, cut.Pattern, cut.State);
        if (_table(cut) is not { } table)
        {
            return new HeldCut(cut, 0, HoldMode.Lift);
        }
        if (!_known.TryGetValue(key, out (double Give, HoldMode Mode) answer))
        {
            if (_known.Count >= MostExact)
            {
                return new HeldCut(cut, _bounds[i], HoldMode.Slide);
            }
            _known[key] = answer = table.Exact(cut.At, cut.AngleRad);
        }
        return new HeldCut(cut, Factor(_force(cut), answer.Give), answer.Mode);
    }

    private static double Factor(double force, double give) =>
        force <= 0 ? Sliding.Most : Math.Min(Sliding.Most, 1 / (force * give));
}

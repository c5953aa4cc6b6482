using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Trim;

/// <summary>
/// Bridges left in the shell: evenly spread along the centre line, moved onto a straight where one is near, and clear of
/// the cut's start. The cutter is lifted over the bridge's length plus its own diameter. Counts and spacing are common
/// practice, no source.
/// </summary>
internal static class TrimTabs
{
    private const double OutlineSpacing = 120;
    private const double SlugSpacing = 60;
    private const int Tries = 16;

    /// <summary>Between the slot at a bridge and what is milled away beside it, mm (common practice, no source).</summary>
    private const double Room = 0.5;

    public static int OutlineCount(Contour path) =>
        Math.Max(4, (int)Math.Ceiling(Measure.Length(path) / OutlineSpacing));

    public static int SlugCount(Contour path) => Math.Max(2, (int)Math.Ceiling(Measure.Length(path) / SlugSpacing));

    /// <summary>Empty where not even two bridges fit with as much cut as bridge between them.</summary>
    public static ImmutableArray<Tab> Place(Contour path, int wanted, double length, double cutterDiameter)
    {
        double total = Measure.Length(path);
        double lifted = length + cutterDiameter;
        int count = Math.Min(wanted, (int)(total / (2 * lifted)));
        if (count < 2)
        {
            return [];
        }
        double spacing = total / count;
        double reach = Math.Max(0, ((spacing - lifted) / 2) - (lifted / 2));
        return
        [
            .. Enumerable
                .Range(0, count)
                .Select(k => new Tab(Nudged(path, (k + 0.5) * spacing, reach, lifted), length)),
        ];
    }

    /// <summary>
    /// The cut with its bridges moved off the corners that another cutter mills away before it, each no farther than it has room; null where
    /// one has none.
    /// </summary>
    public static TrimCut? Beside(TrimCut cut, ImmutableArray<TrimCut> corners)
    {
        if (cut.Tabs.IsEmpty)
        {
            return cut;
        }
        double lifted = cut.Tabs[0].Length + cut.Tool.Diameter;
        double spacing = Measure.Length(cut.Path) / cut.Tabs.Length;
        double reach = Math.Max(0, ((spacing - lifted) / 2) - (lifted / 2));
        var moved = ImmutableArray.CreateBuilder<Tab>();
        for (int k = 0; k < cut.Tabs.Length; k++)
        {
            double middle = (k + 0.5) * spacing;
            double was = cut.Tabs[k].At - middle;
            double[] shifts =
            [
                was,
                .. Enumerable
                    .Range(0, (2 * Tries) + 1)
                    .Select(i => reach * (i - Tries) / Tries)
                    .OrderBy(s => !OnStraight(cut.Path, middle + s, lifted))
                    .ThenBy(s => Math.Abs(s - was)),
            ];
            double at = shifts.FirstOrDefault(s => IsClear(cut, middle + s, lifted, corners), double.NaN);
            if (double.IsNaN(at))
            {
                return null;
            }
            moved.Add(cut.Tabs[k] with { At = middle + at });
        }
        return cut with { Tabs = moved.ToImmutable() };
    }

    /// <summary>Whether no corner's cutter comes into the slot of the cut where it is lifted over a bridge.</summary>
    private static bool IsClear(TrimCut cut, double middle, double lifted, ImmutableArray<TrimCut> corners) =>
        Enumerable
            .Range(-2, 5)
            .Select(i => Measure.PointAlong(cut.Path, middle + (i * lifted / 4)))
            .All(p =>
                corners.All(c => !Inside.Contains(c.Edge, p) && Measure.Distance(p, c.Edge) > cut.Tool.Radius + Room)
            );

    /// <summary>The nearest place to <paramref name="at"/> within reach where the lifted stretch lies on one straight; at itself if none.</summary>
    private static double Nudged(Contour path, double at, double reach, double lifted)
    {
        for (int k = 0; k <= Tries; k++)
        {
            double shift = reach * k / Tries;
            if (OnStraight(path, at + shift, lifted))
            {
                return at + shift;
            }
            if (OnStraight(path, at - shift, lifted))
            {
                return at - shift;
            }
        }
        return at;
    }

    private static bool OnStraight(Contour path, double middle, double lifted)
    {
        double from = 0;
        foreach (Segment s in path.Segments)
        {
            double to = from + s.Length;
            if (middle <= to)
            {
                return !s.IsArc && middle - (lifted / 2) >= from && middle + (lifted / 2) <= to;
            }
            from = to;
        }
        return false;
    }
}

using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Verify.Shape;

namespace FixtureGen.Verify.Facts;

/// <summary>What stays between two cuts from above: a land beside a cord's groove, else a wall, but for cuts that are meant to meet; and nothing but relief and skim leaves the block.</summary>
internal static class WallFacts
{
    /// <summary>How much thinner a wall may be (ISO 2768-1, class f, up to 3 mm: 0.05).</summary>
    private const double Slack = 0.05;

    private const double Bin = 4;

    private sealed record Owned(Removal Cut, Area Area);

    public static void Check(FactRun facts)
    {
        Owned[] cuts = [.. Owners(facts)];
        ImmutableArray<Piece> all = [.. cuts.SelectMany(c => c.Area.Pieces)];
        int[] owner = [.. cuts.SelectMany((c, i) => Enumerable.Repeat(i, c.Area.Pieces.Length))];
        PieceBins bins = new(all, Bin);
        double most = Math.Max(facts.Job.Rules.Land, facts.Job.Rules.Wall);
        SortedDictionary<(int, int), (double Wall, Point2 At)> thin = [];
        List<int> near = [];
        for (int i = 0; i < all.Length; i++)
        {
            near.Clear();
            bins.Near(all[i].Bounds(), most, near);
            foreach (int k in near)
            {
                (int a, int b) = (owner[i], owner[k]);
                if (a >= b || MayMeet(cuts[a].Cut, cuts[b].Cut))
                {
                    continue;
                }
                (double wall, double s, _) = Distance.Between(all[i], all[k]);
                double known = thin.TryGetValue((a, b), out (double Wall, Point2 At) t)
                    ? t.Wall
                    : Least(facts, cuts[a], cuts[b]) - Slack;
                if (wall < known)
                {
                    thin[(a, b)] = (wall, all[i].PointAt(s));
                }
            }
        }
        foreach (((int a, int b), (double wall, Point2 at)) in thin)
        {
            FactFindings.Thin(
                facts,
                cuts[a].Cut.Feature,
                cuts[b].Cut.Feature,
                wall,
                Least(facts, cuts[a], cuts[b]),
                at
            );
        }
        Inside(facts, cuts);
        Leaves(facts, cuts);
    }

    private static IEnumerable<Owned> Owners(FactRun facts) =>
        facts
            .Design.Removals.Where(r => r.Setup == Setup.Top && !r.MakesFace)
            .Select(r => new Owned(r, new Area(FactRun.Boundary(r))));

    private static double Least(FactRun facts, Owned a, Owned b) =>
        (a.Cut.Kind == FeatureKind.GasketGroove && NeedsLand(b.Cut))
        || (b.Cut.Kind == FeatureKind.GasketGroove && NeedsLand(a.Cut))
            ? facts.Job.Rules.Land
            : facts.Job.Rules.Wall;

    /// <summary>What the shell must be sealed from: beside a blind pocket a wall is enough.</summary>
    private static bool NeedsLand(Removal cut) =>
        cut.Kind
            is FeatureKind.Relief
                or FeatureKind.CutoutRelief
                or FeatureKind.GasketGroove
                or FeatureKind.Net
                or FeatureKind.Port;

    /// <summary>One cut that lies wholly in another has no wall to it at all.</summary>
    private static void Inside(FactRun facts, Owned[] cuts)
    {
        foreach (Owned inner in cuts)
        {
            Point2 p = inner.Area.Pieces[0].A;
            foreach (Owned outer in cuts)
            {
                if (inner != outer && !MayMeet(inner.Cut, outer.Cut) && outer.Area.Contains(p))
                {
                    FactFindings.Thin(facts, inner.Cut.Feature, outer.Cut.Feature, 0, Least(facts, inner, outer), p);
                }
            }
        }
    }

    private static void Leaves(FactRun facts, Owned[] cuts)
    {
        Box2 b = facts.Design.Placement.BlankBox;
        double tolerance = facts.Job.Plate.PlacingTolerance;
        foreach (Owned cut in cuts.Where(c => c.Cut.Kind != FeatureKind.Relief))
        {
            Box2 c = cut.Area.Bounds;
            double left =
                new[] { c.MinX - b.MinX, b.MaxX - c.MaxX, c.MinY - b.MinY, b.MaxY - c.MaxY }.Min() - tolerance;
            if (left < 0)
            {
                FactFindings.Thin(facts, cut.Cut.Feature, "the block's edge", left, 0, c.Middle);
            }
        }
    }

    private static bool MayMeet(Removal a, Removal b) =>
        a.Feature == b.Feature && a.Kind == b.Kind
        || Pair(a, b, FeatureKind.Relief, FeatureKind.CutoutRelief)
        || Pair(a, b, FeatureKind.CutoutRelief, FeatureKind.CutoutRelief)
        || Pair(a, b, FeatureKind.Counterbore, FeatureKind.BoltHole)
        || Pair(a, b, FeatureKind.Port, FeatureKind.Net)
        || Pair(a, b, FeatureKind.MagnetPocket, FeatureKind.MagnetNotch)
        || Pair(a, b, FeatureKind.Label, FeatureKind.Mark);

    private static bool Pair(Removal a, Removal b, FeatureKind one, FeatureKind other) =>
        (a.Kind == one && b.Kind == other) || (a.Kind == other && b.Kind == one);
}

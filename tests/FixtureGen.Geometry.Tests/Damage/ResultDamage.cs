using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Tests.Damage;

/// <summary>One fault put into a right result, as a bug might; null where the result has no place for it.</summary>
internal static class ResultDamage
{
    public static readonly string[] Kinds = ["loop lost", "disc of 3 mm added", "vertex moved", "chord for an arc"];

    public static List<Loop>? Make(string kind, IReadOnlyList<Loop> right, Random random)
    {
        if (right.Count == 0)
        {
            return null;
        }
        List<Loop> loops = [.. right];
        int k = random.Next(loops.Count);
        switch (kind)
        {
            case "loop lost":
                loops.RemoveAt(k);
                return loops;
            case "disc of 3 mm added":
                loops.Add(Disc(right, random));
                return loops;
            case "vertex moved":
                loops[k] = Moved(loops[k], random);
                return loops;
            default:
                return Chord(loops[k], random) is { } damaged ? Replaced(loops, k, damaged) : null;
        }
    }

    /// <summary>All raw parallels but one, of which nothing is said to be missing.</summary>
    public static void Lose(RawCurves whole, int lost, int sourceCount, RawCurves into)
    {
        into.Begin(sourceCount);
        for (int i = 0; i < whole.Count; i++)
        {
            if (i != lost)
            {
                into.Add(whole.Items[i], whole.Source(i));
            }
        }
        for (int i = 0; i < whole.Count; i++)
        {
            if (i != lost && whole.Next(i) >= 0 && whole.Next(i) != lost)
            {
                into.Connect(Without(lost, i), Without(lost, whole.Next(i)));
            }
        }
        for (int i = 0; i < sourceCount; i++)
        {
            if (whole.Shows(i))
            {
                into.Show(i);
            }
            if (whole.ShowsCorner(i))
            {
                into.ShowCorner(i);
            }
        }
    }

    private static int Without(int lost, int number) => number > lost ? number - 1 : number;

    private static List<Loop> Replaced(List<Loop> loops, int k, Loop by)
    {
        loops[k] = by;
        return loops;
    }

    /// <summary>Somewhere in the result's box, hole or island, said to come from a curve that is there.</summary>
    private static Loop Disc(IReadOnlyList<Loop> right, Random random)
    {
        Box2 box = right[random.Next(right.Count)].Box;
        Point2 c = new(box.MinX + (random.NextDouble() * box.Width), box.MinY + (random.NextDouble() * box.Height));
        Contour disc = Contours.Circle(c, 1.5);
        int source = right[0].Sources[0];
        return Of(random.Next(2) == 0 ? disc : Contours.Cw(disc), [source, source]);
    }

    /// <summary>By 0.01 to 1 mm in any direction; a line beside it follows, an arc keeps its centre.</summary>
    private static Loop Moved(in Loop loop, Random random)
    {
        Segment[] s = [.. loop.Contour.Segments];
        int i = random.Next(s.Length);
        double far = Math.Pow(10, (2 * random.NextDouble()) - 2);
        double angle = 2 * Math.PI * random.NextDouble();
        Point2 to = s[i].Start + new Point2(far * Math.Cos(angle), far * Math.Sin(angle));
        int before = (i + s.Length - 1) % s.Length;
        s[i] = s[i] with { Start = to };
        s[before] = s[before] with { End = to };
        return Of(new Contour([.. s]), loop.Sources);
    }

    private static Loop? Chord(in Loop loop, Random random)
    {
        Segment[] s = [.. loop.Contour.Segments];
        int[] arcs = [.. Enumerable.Range(0, s.Length).Where(i => s[i].IsArc && Bend(s[i]) > 1e-4)];
        if (arcs.Length == 0)
        {
            return null;
        }
        int chosen = arcs[random.Next(arcs.Length)];
        s[chosen] = Segment.Line(s[chosen].Start, s[chosen].End);
        return Of(new Contour([.. s]), loop.Sources);
    }

    private static double Bend(Segment s) => s.Radius * (1 - Math.Cos(s.Sweep / 2));

    private static Loop Of(Contour contour, ImmutableArray<int> sources)
    {
        Curve[] curves = [.. contour.Segments.Select(s => Curve.From(s))];
        return Loop.From(curves, CurveSums.Sum(curves), reversed: false) with { Sources = sources };
    }
}

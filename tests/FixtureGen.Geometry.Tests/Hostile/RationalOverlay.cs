using FixtureGen.Model;

namespace FixtureGen.Tests.Hostile;

/// <summary>
/// The area of any combination of two sets of polygons, worked in fractions without rounding: the plane is cut into upright
/// strips at every corner and every crossing, inside a strip the sides stand in order, and between two of them the numbers
/// of turns are the same all along (the trapezoidal decomposition of de Berg et al., Computational Geometry, 6.1).
/// </summary>
public static class RationalOverlay
{
    private readonly record struct Side(Rational X0, Rational Y0, Rational X1, Rational Y1, int Step, bool InA);

    /// <summary>The areas where each of the wishes holds for the turns of A and B; mm2, rounded once at the end.</summary>
    public static double[] Areas(
        IReadOnlyList<Region> a,
        IReadOnlyList<Region> b,
        IReadOnlyList<Func<int, int, bool>> wishes
    )
    {
        List<Side> sides = [];
        Gather(a, true, sides);
        Gather(b, false, sides);
        Rational[] xs = Strips(sides);
        double[] areas = new double[wishes.Count];
        for (int i = 1; i < xs.Length; i++)
        {
            AddStrip(sides, xs[i - 1], xs[i], wishes, areas);
        }
        return areas;
    }

    private static void Gather(IReadOnlyList<Region> regions, bool inA, List<Side> sides)
    {
        foreach (Segment s in regions.SelectMany(r => r.Contours).SelectMany(c => c.Segments))
        {
            Rational x0 = Rational.Exactly(s.Start.X);
            Rational x1 = Rational.Exactly(s.End.X);
            Rational y0 = Rational.Exactly(s.Start.Y);
            Rational y1 = Rational.Exactly(s.End.Y);
            int order = x0.CompareTo(x1);
            if (order < 0)
            {
                sides.Add(new(x0, y0, x1, y1, 1, inA));
            }
            else if (order > 0)
            {
                sides.Add(new(x1, y1, x0, y0, -1, inA));
            }
        }
    }

    private static Rational[] Strips(List<Side> sides)
    {
        List<Rational> xs = [];
        for (int i = 0; i < sides.Count; i++)
        {
            xs.Add(sides[i].X0);
            xs.Add(sides[i].X1);
            for (int j = 0; j < i; j++)
            {
                if (Crossing(sides[i], sides[j]) is { } x)
                {
                    xs.Add(x);
                }
            }
        }
        xs.Sort(static (x, y) => x.CompareTo(y));
        List<Rational> distinct = [];
        foreach (Rational x in xs)
        {
            if (distinct.Count == 0 || distinct[^1].CompareTo(x) != 0)
            {
                distinct.Add(x);
            }
        }
        return [.. distinct];
    }

    private static Rational? Crossing(Side s, Side t)
    {
        if (s.X1.CompareTo(t.X0) <= 0 || t.X1.CompareTo(s.X0) <= 0)
        {
            return null;
        }
        Rational from = s.X0.CompareTo(t.X0) > 0 ? s.X0 : t.X0;
        Rational to = s.X1.CompareTo(t.X1) < 0 ? s.X1 : t.X1;
        Rational left = Height(s, from) - Height(t, from);
        Rational right = Height(s, to) - Height(t, to);
        return left.Sign * right.Sign >= 0 ? null : from + ((to - from) * left / (left - right));
    }

    private static Rational Height(Side s, Rational x) => s.Y0 + ((s.Y1 - s.Y0) * (x - s.X0) / (s.X1 - s.X0));

    private static void AddStrip(
        List<Side> sides,
        Rational from,
        Rational to,
        IReadOnlyList<Func<int, int, bool>> wishes,
        double[] areas
    )
    {
        Rational middle = (from + to) * new Rational(1, 2);
        List<(Rational Y, Side Side)> across = [];
        foreach (Side s in sides)
        {
            if (s.X0.CompareTo(from) <= 0 && s.X1.CompareTo(to) >= 0)
            {
                across.Add((Height(s, middle), s));
            }
        }
        across.Sort((p, q) => p.Y.CompareTo(q.Y));
        double width = (to - from).ToDouble();
        int inA = 0;
        int inB = 0;
        for (int i = 0; i + 1 < across.Count; i++)
        {
            Side s = across[i].Side;
            inA += s.InA ? s.Step : 0;
            inB += s.InA ? 0 : s.Step;
            double area = width * (across[i + 1].Y - across[i].Y).ToDouble();
            for (int k = 0; k < wishes.Count; k++)
            {
                areas[k] += wishes[k](inA, inB) ? area : 0;
            }
        }
    }
}

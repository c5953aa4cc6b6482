using System.Collections.Immutable;
using FixtureGen.Cutting;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Trim;

/// <summary>A centre line turned to begin where the leads meet it. In ends and Out starts at Path's start.</summary>
internal sealed record TrimStart(Contour Path, OpenPath In, OpenPath Out);

/// <summary>
/// Where a trim cut begins: the middle of the longest straight whose quarter-circle leads, tangent and on the scrap side
/// (left of travel), stay the cutter's radius away from the finished edge. A smaller radius is tried before a worse place.
/// Before it leads out the cut goes on along its first stretch once more, so that no mark stands where it closes.
/// </summary>
internal static class TrimLeads
{
    /// <summary>Leads are tried at the wanted radius and at these shares of it.</summary>
    private static readonly ImmutableArray<double> Shares = [1, 0.5, 0.25, 0.125];

    private const int Places = 24;

    private const double Slack = 1e-4;

    private const double CheckStep = 0.2;

    public static TrimStart? Choose(Contour line, Contour edge, double cutterRadius, double leadRadius)
    {
        int[] places =
        [
            .. Enumerable
                .Range(0, line.Segments.Length)
                .OrderBy(i => line.Segments[i].IsArc)
                .ThenByDescending(i => Math.Round(line.Segments[i].Length, 3))
                .ThenBy(i => i)
                .Take(Places),
        ];
        double overlap = Overlap.Length(cutterRadius, Measure.Length(line));
        foreach (double share in Shares)
        {
            foreach (int i in places)
            {
                Segment at = line.Segments[i];
                double beyond = Math.Min(0.5 + (overlap / at.Length), 1);
                Segment leadIn = Quarter(at, 0.5, share * leadRadius, into: true);
                Segment leadOut = Quarter(at, beyond, share * leadRadius, into: false);
                if (Clear(leadIn, edge, cutterRadius) && Clear(leadOut, edge, cutterRadius))
                {
                    Segment again = at with { Start = Measure.PointAt(at, 0.5), End = leadOut.Start };
                    return new TrimStart(StartInside(line, i), new OpenPath([leadIn]), new OpenPath([again, leadOut]));
                }
            }
        }
        return null;
    }

    /// <summary>The leads of a cutout with no room beside its centre line: the line's own last and first stretch.</summary>
    public static TrimStart AlongItself(Contour line)
    {
        int longest = Enumerable.Range(0, line.Segments.Length).MaxBy(i => line.Segments[i].Length);
        Contour path = StartInside(line, longest);
        return new TrimStart(path, new OpenPath([path.Segments[^1]]), new OpenPath([path.Segments[0]]));
    }

    private static Segment Quarter(Segment at, double t, double radius, bool into)
    {
        Point2 start = Measure.PointAt(at, t);
        Point2 along = Measure.TangentAt(at, t);
        Point2 centre = start + (along.Left * radius);
        return into
            ? Segment.Arc(centre - (along * radius), start, centre, ccw: true)
            : Segment.Arc(start, centre + (along * radius), centre, ccw: true);
    }

    private static bool Clear(Segment arc, Contour edge, double cutterRadius)
    {
        int steps = Math.Max(4, (int)Math.Ceiling(arc.Length / CheckStep));
        return Enumerable
            .Range(0, steps + 1)
            .All(k => Measure.Distance(Measure.PointAt(arc, (double)k / steps), edge) >= cutterRadius - Slack);
    }

    /// <summary>The same loop beginning at the middle of segment <paramref name="index"/>.</summary>
    private static Contour StartInside(Contour line, int index)
    {
        Segment cut = line.Segments[index];
        Point2 middle = Measure.PointAt(cut, 0.5);
        return new Contour([
            cut with
            {
                Start = middle,
            },
            .. line.Segments[(index + 1)..],
            .. line.Segments[..index],
            cut with
            {
                End = middle,
            },
        ]);
    }
}

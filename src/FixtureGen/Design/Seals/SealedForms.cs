using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Seals;

/// <summary>
/// Which forms that rise from the flange lie within the seal: those that a loop goes round on the flange, a land and half a groove
/// from their edge. Vacuum on a closed surface pulls as on its projection, so they count whole. One that a cutout opens, or
/// whose flange is too narrow for a loop, stays outside. Plate frame, mm.
/// </summary>
internal static class SealedForms
{
    /// <summary>What of a form's land may stick out of its zone, mm2, is rounding.</summary>
    private const double Rounding = 1e-3;

    /// <summary>Of a chord from its arc, where points stand for an edge, mm.</summary>
    private const double Chord = 0.02;

    /// <summary>A form whose land the seal would cross: by how much the flange is too narrow there, mm.</summary>
    public sealed record Crossed(int Form, double By, Point2 At);

    /// <summary>A form with the land and half the groove that a loop keeps from it.</summary>
    public static ImmutableArray<Region> Lands(Part placed, IEnumerable<int> forms, Job job, Kernel kernel) =>
        kernel.UnionAll([
            .. forms
                .Select(i => placed.Forms[i])
                .SelectMany(f => kernel.Offset([Footprint(f)], Zones.Keep(job) + (f.Plugged ? Moat(job) : 0))),
        ]);

    /// <summary>How far the groove round a plug's foot reaches under the flange, mm.</summary>
    public static double Moat(Job job) =>
        Math.Max(0, (NetWidth.Choose(job)?.Diameter ?? 0) - job.Rules.RunningClearance);

    /// <summary>Those that do not lie whole, with their land, in one of the zones.</summary>
    public static IEnumerable<Crossed> OutOf(
        IReadOnlyList<Region> zones,
        Part placed,
        IEnumerable<int> forms,
        Job job,
        Kernel kernel
    )
    {
        foreach (int i in forms)
        {
            ImmutableArray<Region> land = Lands(placed, [i], job, kernel);
            ImmutableArray<Region>[] left = [.. zones.Select(z => kernel.Difference(land, [z]))];
            int own = Enumerable.Range(0, left.Length).MinBy(z => Math.Round(Measure.Area(left[z]), 3));
            if (Measure.Area(left[own]) < Rounding)
            {
                continue;
            }
            (double by, Point2 at) = left[own]
                .SelectMany(r => Flatten.Points(r.Outer, Chord))
                .Select(p => (Measure.Distance(p, zones[own]), p))
                .MaxBy(t => Math.Round(t.Item1, 3));
            yield return new Crossed(i, by, at);
        }
    }

    /// <summary>The hollows under a zone's boundary: their air is one with the zone's once a groove opens into them.</summary>
    public static ImmutableArray<Region> Hollows(Part placed, Region boundary, Kernel kernel) =>
        [
            .. placed
                .Forms.Where(f => f.Direction == FormDirection.Up)
                .Select(Footprint)
                .Where(f => kernel.Difference([f], [boundary]).IsEmpty),
        ];

    private static Region Footprint(FormRegion form) => Region.From(Contours.Ccw(form.Edge));
}

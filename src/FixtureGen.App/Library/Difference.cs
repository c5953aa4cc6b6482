using System.Collections.Immutable;
using System.Globalization;
using FixtureGen.Model;
using FixtureGen.Output.Reports;

namespace FixtureGen.App.Library;

/// <summary>The difference of two reports of one job in words, and a block on the shelf from the plate it must fit.</summary>
internal static class Difference
{
    /// <summary>Places nearer than this are the same, mm.</summary>
    private const double Same = 0.001;

    /// <summary>A hole of a block still meets its opening within this, mm: half the play of a close clearance hole.</summary>
    private const double Play = 0.05;

    /// <summary>
    /// Blank, placement, bolts, pins, ports, magnets and zones, as far as both reports have them; a place that moved less
    /// than 0.001 mm did not.
    /// </summary>
    public static ImmutableArray<string> Moved(Report before, Report after)
    {
        ImmutableArray<string>.Builder said = ImmutableArray.CreateBuilder<string>();
        if (before.Placement is { } p && after.Placement is { } q)
        {
            if (p.Blank != q.Blank)
            {
                said.Add($"blank {p.Blank} -> {q.Blank}");
            }
            if (Far(p.XMm, q.XMm) || Far(p.YMm, q.YMm) || Far(p.AngleDeg, q.AngleDeg))
            {
                said.Add(
                    Text(
                        $"placement X {p.XMm:0.###} Y {p.YMm:0.###} {p.AngleDeg:0.##} deg -> X {q.XMm:0.###} Y {q.YMm:0.###} {q.AngleDeg:0.##} deg"
                    )
                );
            }
        }
        if (before.Features is { } f && after.Features is { } g)
        {
            Places(said, "bolts", f.Bolts, g.Bolts);
            Places(said, "pins", f.Pins, g.Pins);
            Places(said, "ports", f.Ports, g.Ports);
            Places(said, "magnets", f.Magnets, g.Magnets);
            if (f.Zones != g.Zones || Math.Abs(f.SealedAreaMm2 - g.SealedAreaMm2) > 0.5)
            {
                said.Add(
                    Text(
                        $"zones {f.Zones} with {f.SealedAreaMm2 / 100:0.0} cm2 -> {g.Zones} with {g.SealedAreaMm2 / 100:0.0} cm2"
                    )
                );
            }
        }
        return said.ToImmutable();
    }

    /// <summary>Why a block that was made as the report says does not fit the plate now; null where it fits.</summary>
    public static string? Misfit(Report cut, Plate plate)
    {
        if (cut.Features is not { } f)
        {
            return null;
        }
        return Miss("bolt hole", f.Bolts, plate.Bolts.Select(o => o.At))
            ?? Miss("pin hole", f.Pins, [plate.PinRound.At, plate.PinSlot.At])
            ?? Unfed(f.Ports, plate);
    }

    private static string? Unfed(IReadOnlyList<PlaceFacts> ports, Plate plate)
    {
        bool anyFed = ports.Any(p => plate.Ports.Any(o => o.At.DistanceTo(new Point2(p.XMm, p.YMm)) <= o.Diameter / 2));
        bool groove = plate.Grooves.Length > 0;
        return anyFed || groove || ports.Count == 0
            ? null
            : Text($"its vacuum port at X {ports[0].XMm:0.##} Y {ports[0].YMm:0.##} meets no port of the plate");
    }

    private static string? Miss(string what, IReadOnlyList<PlaceFacts> holes, IEnumerable<Point2> openings)
    {
        Point2[] at = [.. openings];
        foreach (PlaceFacts hole in holes)
        {
            double off = at.Select(o => o.DistanceTo(new Point2(hole.XMm, hole.YMm))).DefaultIfEmpty(999).Min();
            if (off > Play)
            {
                return Text($"its {what} at X {hole.XMm:0.##} Y {hole.YMm:0.##} is {off:0.00} mm off the plate's");
            }
        }
        return null;
    }

    private static void Places(
        ImmutableArray<string>.Builder said,
        string what,
        IReadOnlyList<PlaceFacts> before,
        IReadOnlyList<PlaceFacts> after
    )
    {
        if (before.Count != after.Count)
        {
            said.Add(Text($"{what} {before.Count} -> {after.Count}"));
            return;
        }
        (PlaceFacts From, PlaceFacts To)[] moved =
        [
            .. Paired(before, after).Where(p => Far(p.From.XMm, p.To.XMm) || Far(p.From.YMm, p.To.YMm)),
        ];
        if (moved.Length == 1)
        {
            (PlaceFacts a, PlaceFacts b) = moved[0];
            said.Add(
                Text(
                    $"{what}: one of {before.Count} from X {a.XMm:0.##} Y {a.YMm:0.##} to X {b.XMm:0.##} Y {b.YMm:0.##} mm"
                )
            );
        }
        else if (moved.Length > 1)
        {
            double most = moved.Max(p => Math.Max(Math.Abs(p.From.XMm - p.To.XMm), Math.Abs(p.From.YMm - p.To.YMm)));
            said.Add(Text($"{what}: {moved.Length} of {before.Count} moved by up to {most:0.00} mm"));
        }
    }

    /// <summary>Each place with the one that it became, nearest first: the order in which a report lists them says nothing.</summary>
    private static IEnumerable<(PlaceFacts From, PlaceFacts To)> Paired(
        IReadOnlyList<PlaceFacts> before,
        IReadOnlyList<PlaceFacts> after
    )
    {
        HashSet<int> from = [.. Enumerable.Range(0, before.Count)];
        HashSet<int> to = [.. Enumerable.Range(0, after.Count)];
        IEnumerable<(int A, int B)> pairs = from.SelectMany(a => to.Select(b => (a, b)))
            .OrderBy(p => Distance(before[p.a], after[p.b]))
            .ThenBy(p => p.a)
            .ThenBy(p => p.b)
            .ToArray();
        foreach ((int a, int b) in pairs)
        {
            if (from.Contains(a) && to.Contains(b))
            {
                from.Remove(a);
                to.Remove(b);
                yield return (before[a], after[b]);
            }
        }
    }

    private static double Distance(PlaceFacts a, PlaceFacts b) =>
        new Point2(a.XMm, a.YMm).DistanceTo(new Point2(b.XMm, b.YMm));

    private static bool Far(double a, double b) => Math.Abs(a - b) > Same;

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}

using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Tests.Verify.Designs;

/// <summary>One way to spoil a design: null where this design has nothing of the kind.</summary>
internal delegate FixtureDesign? Spoil(FixtureDesign design, Job job, Draw draw);

/// <summary>A seeded draw of amounts, all beyond what any fit bears.</summary>
internal sealed class Draw(Random random)
{
    public double Between(double least, double most) => least + (random.NextDouble() * (most - least));

    /// <summary>So long, any way.</summary>
    public Point2 Way(double least, double most)
    {
        double angle = 2 * Math.PI * random.NextDouble();
        return new Point2(Math.Cos(angle), Math.Sin(angle)) * Between(least, most);
    }

    public T? One<T>(IReadOnlyList<T> of)
        where T : class => of.Count == 0 ? null : of[random.Next(of.Count)];
}

/// <summary>Every kind by name: figures moved beyond their fits, features dropped, doubled, swapped, turned and mirrored.</summary>
internal static class DesignDamage
{
    public static SortedDictionary<string, Spoil> Kinds { get; } =
        new(
            Holes()
                .Concat(Pockets())
                .Concat(Grooves())
                .Concat(TrimDamage.Kinds())
                .Concat(WholeDamage.Kinds())
                .ToDictionary(k => k.Name, k => k.Spoil),
            StringComparer.Ordinal
        );

    /// <summary>One feature of a kind changed; null drops the damage, not the feature.</summary>
    public static Spoil Change(FeatureKind kind, Func<Feature, Draw, Feature?> change) =>
        (design, _, draw) =>
        {
            Feature? one = draw.One([.. design.Features.Where(f => f.Kind == kind)]);
            return one is null || change(one, draw) is not { } other
                ? null
                : design with
                {
                    Features = design.Features.Replace(one, other),
                };
        };

    /// <summary>All features of these kinds changed alike.</summary>
    public static Spoil All(Func<Draw, Func<Feature, Feature?>> change, params FeatureKind[] kinds) =>
        (design, _, draw) =>
        {
            Func<Feature, Feature?> each = change(draw);
            Feature?[] changed = [.. design.Features.Where(f => kinds.Contains(f.Kind)).Select(each)];
            return changed.Length == 0 || changed.Any(f => f is null)
                ? null
                : design with
                {
                    Features = [.. design.Features.Select(f => kinds.Contains(f.Kind) ? each(f)! : f)],
                };
        };

    public static Spoil Drop(FeatureKind kind) =>
        (design, _, draw) =>
            draw.One([.. design.Features.Where(f => f.Kind == kind)]) is { } one
                ? design with
                {
                    Features = design.Features.Remove(one),
                }
                : null;

    /// <summary>A second one beside the first.</summary>
    public static Spoil Double(FeatureKind kind, double least, double most) =>
        (design, _, draw) =>
            draw.One([.. design.Features.Where(f => f.Kind == kind)]) is { } one
                ? design with
                {
                    Features = design.Features.Insert(
                        design.Features.IndexOf(one) + 1,
                        Again(Shifts.Move(one, draw.Way(least, most)))
                    ),
                }
                : null;

    private static Feature Again(Feature feature) =>
        feature with
        {
            Name = feature.Name + " again",
            Removals = [.. feature.Removals.Select(r => r with { Feature = feature.Name + " again" })],
        };

    private static Spoil Moved(FeatureKind kind, double least, double most) =>
        Change(kind, (f, d) => Shifts.Move(f, d.Way(least, most)));

    private static Spoil Wider(FeatureKind kind, double least, double most) =>
        Change(kind, (f, d) => Shifts.Grow(f, d.Between(least, most)));

    private static Spoil Tighter(FeatureKind kind, double least, double most) =>
        Change(kind, (f, d) => Shifts.Grow(f, -d.Between(least, most)));

    private static Spoil Deeper(FeatureKind kind, double least, double most) =>
        Change(kind, (f, d) => Shifts.Deepen(f, d.Between(least, most)));

    private static Spoil Shallower(FeatureKind kind, double least, double most) =>
        Change(kind, (f, d) => Shifts.Deepen(f, -d.Between(least, most)));

    private static IEnumerable<(string Name, Spoil Spoil)> Holes()
    {
        foreach (FeatureKind pin in (FeatureKind[])[FeatureKind.PinHole, FeatureKind.PinSlot])
        {
            yield return ($"{pin} moved", Moved(pin, 0.06, 1));
            yield return ($"{pin} wider", Wider(pin, 0.015, 0.3));
            yield return ($"{pin} tighter", Tighter(pin, 0.015, 0.3));
            yield return ($"{pin} dropped", Drop(pin));
        }
        yield return (
            "pins moved 0.8",
            All(d => f => Shifts.Move(f, d.Way(0.8, 0.8)), FeatureKind.PinHole, FeatureKind.PinSlot)
        );
        yield return ("slot shorter", Change(FeatureKind.PinSlot, (f, d) => Slot(f, -d.Between(0.1, 0.2), 0)));
        yield return ("slot longer", Change(FeatureKind.PinSlot, (f, d) => Slot(f, d.Between(0.1, 2), 0)));
        yield return ("slot turned", Change(FeatureKind.PinSlot, (f, d) => Slot(f, 0, d.Between(60, 120))));
        yield return ("pins swapped", Swap(FeatureKind.PinHole, FeatureKind.PinSlot));
        yield return ("bolt hole moved", Moved(FeatureKind.BoltHole, 0.3, 2));
        yield return (
            "bolts moved 1.0",
            All(d => f => Shifts.Move(f, d.Way(1, 1)), FeatureKind.BoltHole, FeatureKind.Counterbore)
        );
        yield return ("bolt hole wider", Wider(FeatureKind.BoltHole, 0.2, 1));
        yield return ("bolt hole tighter", Tighter(FeatureKind.BoltHole, 0.05, 1));
        yield return ("bolt hole dropped", Drop(FeatureKind.BoltHole));
        yield return ("bolt hole doubled", Double(FeatureKind.BoltHole, 12, 20));
        yield return ("counterbore moved", Moved(FeatureKind.Counterbore, 0.4, 2));
        yield return ("counterbore tighter", Tighter(FeatureKind.Counterbore, 0.7, 2));
        yield return ("counterbore shallower", Shallower(FeatureKind.Counterbore, 0.7, 3));
        yield return ("counterbore deeper", Deeper(FeatureKind.Counterbore, 0.8, 4));
        yield return ("counterbore dropped", Drop(FeatureKind.Counterbore));
        yield return ("locator moved", Moved(FeatureKind.LocatorHole, 0.06, 1));
        yield return ("locators moved 1.0", All(d => f => Shifts.Move(f, d.Way(1, 1)), FeatureKind.LocatorHole));
        yield return ("locator wider", Wider(FeatureKind.LocatorHole, 0.015, 0.3));
        yield return ("locator tighter", Tighter(FeatureKind.LocatorHole, 0.02, 0.3));
        yield return (
            "locator shallow",
            Change(FeatureKind.LocatorHole, (f, d) => Shifts.Deepen(f, -d.Between(5, 6.5)))
        );
        yield return ("locator dropped", Drop(FeatureKind.LocatorHole));
        yield return ("locator doubled", Double(FeatureKind.LocatorHole, 10, 14));
        yield return ("port moved", Moved(FeatureKind.Port, 0.1, 3));
        yield return ("port tighter", Tighter(FeatureKind.Port, 1.7, 2.2));
        yield return ("port blind", Change(FeatureKind.Port, (f, d) => Shifts.Deepen(f, -d.Between(2, 6))));
        yield return ("port dropped", Drop(FeatureKind.Port));
    }

    private static HoleFeature? Slot(Feature feature, double longer, double turn)
    {
        HoleFeature slot = (HoleFeature)feature;
        return slot.SlotLength + longer < 0.05
            ? null
            : Shifts.Hole(slot with { SlotLength = slot.SlotLength + longer, SlotAngleDeg = slot.SlotAngleDeg + turn });
    }

    private static Spoil Swap(FeatureKind one, FeatureKind other) =>
        (design, _, _) =>
        {
            HoleFeature? a = design.Features.OfType<HoleFeature>().FirstOrDefault(f => f.Kind == one);
            HoleFeature? b = design.Features.OfType<HoleFeature>().FirstOrDefault(f => f.Kind == other);
            return a is null || b is null
                ? null
                : design with
                {
                    Features = design
                        .Features.Replace(a, Shifts.Move(a, b.At - a.At))
                        .Replace(b, Shifts.Move(b, a.At - b.At)),
                };
        };

    private static IEnumerable<(string Name, Spoil Spoil)> Pockets()
    {
        yield return ("magnet pocket moved", Moved(FeatureKind.MagnetPocket, 0.1, 2));
        yield return ("magnet pocket tighter", Tighter(FeatureKind.MagnetPocket, 0.08, 1));
        yield return ("magnet pockets 0.6 tighter", All(_ => f => Shifts.Grow(f, -0.3), FeatureKind.MagnetPocket));
        yield return ("magnet pocket wider", Wider(FeatureKind.MagnetPocket, 0.08, 1));
        yield return ("magnet pocket shallower", Shallower(FeatureKind.MagnetPocket, 0.08, 2));
        yield return (
            "magnet pockets 2.0 shallower",
            All(_ => f => Shifts.Deepen(f, -2), FeatureKind.MagnetPocket, FeatureKind.MagnetNotch)
        );
        yield return ("magnet pocket deeper", Deeper(FeatureKind.MagnetPocket, 0.08, 1));
        yield return ("magnet pocket dropped", Drop(FeatureKind.MagnetPocket));
        yield return ("magnet pocket doubled", Double(FeatureKind.MagnetPocket, 18, 25));
        yield return ("magnet notch dropped", Drop(FeatureKind.MagnetNotch));
        yield return ("magnet notch shallow", Shallower(FeatureKind.MagnetNotch, 0.3, 2));
        yield return ("form pocket moved", Moved(FeatureKind.FormPocket, 0.1, 2));
        yield return ("form pocket tighter", Tighter(FeatureKind.FormPocket, 0.04, 0.5));
        yield return ("form pocket wider", Wider(FeatureKind.FormPocket, 0.04, 1));
        yield return ("form pocket shallower", Shallower(FeatureKind.FormPocket, 0.08, 2));
        yield return ("form pocket deeper", Deeper(FeatureKind.FormPocket, 0.08, 2));
        yield return ("form pocket dropped", Drop(FeatureKind.FormPocket));
        yield return ("relief moved", Moved(FeatureKind.Relief, 0.1, 1));
        yield return ("relief narrower", Tighter(FeatureKind.Relief, 0.05, 0.5));
        yield return ("relief wider", Wider(FeatureKind.Relief, 0.1, 1));
        yield return ("relief shallower", Shallower(FeatureKind.Relief, 0.15, 1));
        yield return ("relief deeper", Deeper(FeatureKind.Relief, 0.15, 2));
        yield return ("cutout relief narrower", Tighter(FeatureKind.CutoutRelief, 0.05, 0.5));
        yield return ("cutout relief wider", Wider(FeatureKind.CutoutRelief, 0.1, 1));
        yield return ("cutout relief shallower", Shallower(FeatureKind.CutoutRelief, 0.15, 1));
        yield return ("cutout relief dropped", Drop(FeatureKind.CutoutRelief));
    }

    private static IEnumerable<(string Name, Spoil Spoil)> Grooves()
    {
        yield return ("groove moved", Moved(FeatureKind.GasketGroove, 0.1, 1));
        yield return ("groove narrower", Tighter(FeatureKind.GasketGroove, 0.06, 0.5));
        yield return ("groove wider", Wider(FeatureKind.GasketGroove, 0.06, 0.5));
        yield return ("groove deeper", Deeper(FeatureKind.GasketGroove, 0.08, 2));
        yield return ("grooves 0.8 deeper", All(_ => f => Shifts.Deepen(f, 0.8), FeatureKind.GasketGroove));
        yield return ("groove shallower", Shallower(FeatureKind.GasketGroove, 0.08, 1));
        yield return ("groove dropped", Drop(FeatureKind.GasketGroove));
        yield return ("groove doubled", Double(FeatureKind.GasketGroove, 6, 9));
        yield return ("net moved", Moved(FeatureKind.Net, 3, 6));
        yield return ("net deeper", Deeper(FeatureKind.Net, 0.15, 2));
        yield return ("net shallower", Shallower(FeatureKind.Net, 0.15, 1));
        yield return ("net wider", Wider(FeatureKind.Net, 0.3, 0.8));
        yield return ("net dropped", Drop(FeatureKind.Net));
        yield return ("channel moved", Moved(FeatureKind.Channel, 4, 8));
        yield return ("channel dropped", Drop(FeatureKind.Channel));
        yield return ("label deeper", Deeper(FeatureKind.Label, 0.1, 0.5));
        yield return ("label dropped", Drop(FeatureKind.Label));
        yield return ("pole mark dropped", Drop(FeatureKind.Mark));
        yield return ("skim higher", Change(FeatureKind.Skim, (f, d) => Shifts.Deepen(f, -d.Between(0.06, 0.3))));
        yield return ("skim smaller", Tighter(FeatureKind.Skim, 2.5, 8));
    }
}

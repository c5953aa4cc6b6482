using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Output.Pictures;

/// <summary>A hole to be drilled in the shell's scrap over a locator pin, mm, in the drawing's frame.</summary>
/// <param name="At">Its middle.</param>
/// <param name="Width">Diameter, or the slot's width.</param>
/// <param name="Length">End to end; as Width where it is round.</param>
/// <param name="AngleDeg">Of a slot, against the drawing's X.</param>
internal sealed record ShellHole(string Name, Point2 At, double Width, double Length, double AngleDeg)
{
    public bool IsSlot => Length > Width + 1e-9;
}

/// <summary>
/// The holes that go over the locator pins and the pins' length, mm. The first hole is round, pin and clearance wide. The
/// second lies along the line of both and is longer by the spread of the shell's shrinkage over their distance, so that a shell that
/// shrank more or less still goes on; any further hole is wider by that all round. Where the job asks for round holes all are alike.
/// </summary>
internal sealed record LocatorGuide(
    ImmutableArray<ShellHole> Holes,
    double PinDiameter,
    double PinLength,
    double InBlock,
    double Spread
)
{
    /// <summary>Null where no pins locate the shell.</summary>
    public static LocatorGuide? For(Job job, FixtureDesign design)
    {
        HoleFeature[] holes = [.. design.Features.OfType<HoleFeature>().Where(h => h.Kind == FeatureKind.LocatorHole)];
        if (holes.Length == 0 || job.LocatorPins.Length != holes.Length)
        {
            return null;
        }
        double depth = holes.Max(h => h.TopZ - h.FloorZ);
        double pin = job.Rules.LocatorPinDiameter;
        double wide = pin + job.Rules.LocatorHoleClearance;
        double spread = job.ShellMaterial.Sheet is { } sheet ? sheet.Shrinkage.Greatest - sheet.Shrinkage.Least : 0;
        Point2 first = job.LocatorPins[0];
        return new LocatorGuide(
            [.. job.LocatorPins.Select((at, i) => Hole(holes[i].Name, first, at, i, wide, spread, job.LocatorHoles))],
            pin,
            depth + job.Shell.ThicknessMax + job.Rules.LocatorPinProjection,
            depth,
            spread
        );
    }

    private static ShellHole Hole(
        string name,
        Point2 first,
        Point2 at,
        int index,
        double wide,
        double spread,
        LocatorHoles holes
    )
    {
        double longer = spread * first.DistanceTo(at);
        if (index == 0 || holes == LocatorHoles.Round)
        {
            return new ShellHole(name, at, wide, wide, 0);
        }
        Point2 way = at - first;
        return index == 1
            ? new ShellHole(name, at, wide, wide + longer, Math.Atan2(way.Y, way.X) * 180 / Math.PI)
            : new ShellHole(name, at, wide + longer, wide + longer, 0);
    }
}

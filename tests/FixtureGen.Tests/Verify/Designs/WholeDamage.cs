using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Tests.Verify.Designs;

/// <summary>What spoils more than one feature: heights, blank, part, zones, magnets, label.</summary>
internal static class WholeDamage
{
    public static IEnumerable<(string Name, Spoil Spoil)> Kinds()
    {
        yield return ("magnet forgotten", Magnet);
        yield return ("magnets moved with pockets off the job's place", Locked);
        yield return ("zone and groove moved", Zone);
        yield return ("zone shrunk round a sharp corner", Sharp);
        yield return ("cord longer", Cord);
        yield return ("reached more than the net", Reached);
        yield return ("fixture height", (d, _, w) => d with { FixtureHeight = d.FixtureHeight + w.Between(0.05, 0.4) });
        yield return ("raw thickness", (d, _, w) => d with { RawThickness = d.RawThickness + w.Between(0.2, 2) });
        yield return ("pose not followed", (d, _, w) => Posed(d, w));
        yield return ("part turned over", (d, _, _) => Mirrored(d));
        yield return ("part larger", (d, job, w) => Scaled(d, w.Between(1.002, 1.02)));
        yield return (
            "cutouts forgotten",
            (d, _, _) => d.Part.Cutouts.IsEmpty ? null : d with { Part = d.Part with { Cutouts = [] } }
        );
        yield return ("blank moved", (d, _, w) => Blank(d, w.Way(0.2, 3)));
        yield return (
            "label of another revision",
            (d, job, _) =>
                Label(
                    d,
                    d.Label.Replace(
                        FormattableString.Invariant($"REV {job.Revision}"),
                        "REV 9",
                        StringComparison.Ordinal
                    )
                )
        );
        yield return (
            "label counts wrong",
            (d, _, _) => Label(d, d.Label.Replace("MAGNETS", "MAGNETS 1", StringComparison.Ordinal))
        );
        yield return ("label of another job", (d, _, _) => Label(d, "OTHER PART X-9"));
    }

    private static FixtureDesign? Magnet(FixtureDesign design, Job job, Draw draw)
    {
        if (draw.One([.. design.Magnets]) is not { } magnet)
        {
            return null;
        }
        Feature[] own =
        [
            .. design.Features.Where(f =>
                f.Kind is FeatureKind.MagnetPocket or FeatureKind.MagnetNotch
                && Measure.Bounds(f.Removals[0].Area).Middle.DistanceTo(magnet.At) < job.Magnet.Diameter
            ),
        ];
        return design with { Magnets = design.Magnets.Remove(magnet), Features = design.Features.RemoveRange(own) };
    }

    private static FixtureDesign? Locked(FixtureDesign design, Job job, Draw draw)
    {
        if (draw.One([.. design.Magnets.Where(m => m.Locked)]) is not { } magnet)
        {
            return null;
        }
        Point2 by = draw.Way(0.3, 1);
        bool Own(Feature f) =>
            f.Kind is FeatureKind.MagnetPocket or FeatureKind.MagnetNotch
            && Measure.Bounds(f.Removals[0].Area).Middle.DistanceTo(magnet.At) < job.Magnet.Diameter;
        return design with
        {
            Magnets = design.Magnets.Replace(magnet, magnet with { At = magnet.At + by }),
            Features = [.. design.Features.Select(f => Own(f) ? Shifts.Move(f, by) : f)],
        };
    }

    /// <summary>Consistent in itself: only its land is gone.</summary>
    private static FixtureDesign? Zone(FixtureDesign design, Job job, Draw draw)
    {
        if (draw.One(design.Zones) is not { } zone)
        {
            return null;
        }
        Point2 by = draw.Way(2.5, 4);
        Pose pose = new(by.X, by.Y, 0);
        Contour[] own = [.. zone.Boundary.Contours];
        bool Own(Feature f) => f is GrooveFeature { Kind: FeatureKind.GasketGroove } g && own.Contains(g.Loops[0]);
        return design with
        {
            Zones = design.Zones.Replace(
                zone,
                zone with
                {
                    Boundary = Transform.Apply(pose, zone.Boundary),
                    Sealed = [.. zone.Sealed.Select(r => Transform.Apply(pose, r))],
                }
            ),
            Cords =
            [
                .. design.Cords.Select(c =>
                    own.Contains(c.Centre) ? c with { Centre = Transform.Apply(pose, c.Centre) } : c
                ),
            ],
            Features = [.. design.Features.Select(f => Own(f) ? Shifts.Move(f, by) : f)],
        };
    }

    /// <summary>The outer loop with its arcs made straight: corners that no cord follows.</summary>
    private static FixtureDesign? Sharp(FixtureDesign design, Job job, Draw draw)
    {
        if (draw.One(design.Zones) is not { } zone || !zone.Boundary.Outer.Segments.Any(s => s.IsArc))
        {
            return null;
        }
        Contour before = zone.Boundary.Outer;
        Contour after = new([.. before.Segments.Select(s => Segment.Line(s.Start, s.End))]);
        GrooveFeature? groove = design
            .Features.OfType<GrooveFeature>()
            .FirstOrDefault(g => g.Kind == FeatureKind.GasketGroove && g.Loops[0] == before);
        return groove is null || Shifts.Groove(groove with { Loops = [after] }) is not { } sharp
            ? null
            : design with
            {
                Zones = design.Zones.Replace(zone, zone with { Boundary = zone.Boundary with { Outer = after } }),
                Cords = [.. design.Cords.Select(c => c.Centre == before ? c with { Centre = after } : c)],
                Features = design.Features.Replace(groove, sharp),
            };
    }

    private static FixtureDesign? Cord(FixtureDesign design, Job job, Draw draw) =>
        draw.One(design.Cords) is { } cord
            ? design with
            {
                Cords = design.Cords.Replace(cord, cord with { CutLength = cord.CutLength * draw.Between(1.02, 1.2) }),
            }
            : null;

    private static FixtureDesign? Reached(FixtureDesign design, Job job, Draw draw) =>
        draw.One([
            .. design.Features.OfType<GrooveFeature>().Where(f => f.Kind == FeatureKind.Net && f.Loops.Length > 0),
        ])
            is { } net
        && Shifts.Groove(net with { Loops = [], Runs = net.Runs.IsEmpty ? [] : [net.Runs[0]] }) is { } less
        && less.Removals[0].Area.Length > 0
            ? design with
            {
                Features = design.Features.Replace(net, less),
            }
            : null;

    private static FixtureDesign Posed(FixtureDesign design, Draw draw)
    {
        Pose pose = design.Placement.Pose;
        Point2 by = draw.Way(0.2, 3);
        return design with
        {
            Placement = design.Placement with { Pose = new Pose(pose.X + by.X, pose.Y + by.Y, pose.AngleDeg) },
        };
    }

    /// <summary>The shell's side of the design seen in a mirror, plate and block as they are.</summary>
    private static FixtureDesign Mirrored(FixtureDesign design)
    {
        double axis = Measure.Bounds(design.Part.Outer).Middle.X + 1;
        Flip flip = new(axis);
        return design with
        {
            Part = design.Part with
            {
                Outer = Transform.Apply(flip, design.Part.Outer),
                Cutouts = [.. design.Part.Cutouts.Select(c => Contours.Cw(Transform.Apply(flip, c)))],
            },
            TrimCuts = [.. design.TrimCuts.Select(c => Shifts.Mirror(c, axis))],
        };
    }

    /// <summary>Drawn in a unit a little larger: outline and trim alike.</summary>
    private static FixtureDesign Scaled(FixtureDesign design, double by)
    {
        Point2 middle = Measure.Bounds(design.Part.Outer).Middle;
        Point2 Map(Point2 p) => middle + ((p - middle) * by);
        Segment Each(Segment s) => new(Map(s.Start), Map(s.End), s.IsArc ? Map(s.Centre) : default, s.Kind);
        Contour Whole(Contour c) => new([.. c.Segments.Select(Each)]);
        return design with
        {
            Part = design.Part with { Outer = Whole(design.Part.Outer) },
            TrimCuts =
            [
                .. design.TrimCuts.Select(c =>
                    c with
                    {
                        Edge = Whole(c.Edge),
                        Path = Whole(c.Path),
                        LeadIn = new OpenPath([.. c.LeadIn.Segments.Select(Each)]),
                        LeadOut = new OpenPath([.. c.LeadOut.Segments.Select(Each)]),
                    }
                ),
            ],
        };
    }

    private static FixtureDesign Blank(FixtureDesign design, Point2 by)
    {
        Box2 b = design.Placement.BlankBox;
        Box2 moved = new(b.MinX + by.X, b.MinY + by.Y, b.MaxX + by.X, b.MaxY + by.Y);
        return design with { Placement = design.Placement with { BlankBox = moved } };
    }

    private static FixtureDesign? Label(FixtureDesign design, string text) =>
        text == design.Label
            ? null
            : design with
            {
                Label = text,
                Features =
                [
                    .. design.Features.Select(f =>
                        f is EngravingFeature { Kind: FeatureKind.Label } e ? e with { Text = text } : f
                    ),
                ],
            };
}

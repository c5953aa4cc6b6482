using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Tests.Verify.Designs;

/// <summary>Features moved, turned, resized and deepened as a whole: what operations read and what may be taken stay of one mind.</summary>
internal static class Shifts
{
    private static readonly Kernel Kernel = new(Tolerances.House);

    public static Feature Move(Feature feature, Point2 by) => Place(feature, new Pose(by.X, by.Y, 0));

    /// <summary>Turned about a point, degrees.</summary>
    public static Pose About(Point2 centre, double deg)
    {
        Point2 turned = Transform.Apply(new Pose(0, 0, deg), centre);
        return new Pose(centre.X - turned.X, centre.Y - turned.Y, deg);
    }

    public static Feature Place(Feature feature, Pose pose)
    {
        ImmutableArray<Removal> removals =
        [
            .. feature.Removals.Select(r => r with { Area = [.. r.Area.Select(a => Transform.Apply(pose, a))] }),
        ];
        return feature switch
        {
            PocketFeature p => p with { Area = [.. p.Area.Select(a => Transform.Apply(pose, a))], Removals = removals },
            GrooveFeature g => g with
            {
                Loops = [.. g.Loops.Select(l => Transform.Apply(pose, l))],
                Runs = [.. g.Runs.Select(r => Transform.Apply(pose, r))],
                Removals = removals,
            },
            HoleFeature h => h with
            {
                At = Transform.Apply(pose, h.At),
                SlotAngleDeg = h.SlotAngleDeg + pose.AngleDeg,
                Removals = removals,
            },
            EngravingFeature e => e with
            {
                Strokes = [.. e.Strokes.Select(s => Transform.Apply(pose, s))],
                Removals = removals,
            },
            _ => throw new InvalidOperationException(feature.Name),
        };
    }

    /// <summary>Wider all round by so much, mm; below 0 narrower. Null where nothing is left.</summary>
    public static Feature? Grow(Feature feature, double by)
    {
        switch (feature)
        {
            case HoleFeature h:
                return h.Diameter + (2 * by) > 1 ? Hole(h with { Diameter = h.Diameter + (2 * by) }) : null;
            case PocketFeature p:
                ImmutableArray<Region> area = Kernel.Offset(p.Area, by);
                return area.IsEmpty ? null : p with { Area = area, Removals = [p.Removals[0] with { Area = area }] };
            case GrooveFeature g:
                return Groove(g with { Width = g.Width + (2 * by) });
            default:
                return null;
        }
    }

    /// <summary>The floor lower by so much, mm; below 0 higher.</summary>
    public static Feature? Deepen(Feature feature, double by)
    {
        double floor = feature.Removals[0].FloorZ - by;
        if (floor < 0 || floor > feature.Removals[0].TopZ - 0.2)
        {
            return null;
        }
        ImmutableArray<Removal> removals = [.. feature.Removals.Select(r => r with { FloorZ = floor })];
        return feature switch
        {
            PocketFeature p => p with { FloorZ = floor, Removals = removals },
            GrooveFeature g => g with { FloorZ = floor, Removals = removals },
            HoleFeature h => h with { FloorZ = floor, BreaksThrough = false, Removals = removals },
            EngravingFeature e => e with { Depth = e.Depth + by, Removals = removals },
            _ => null,
        };
    }

    /// <summary>A hole whose removal is made again from its figures.</summary>
    public static HoleFeature Hole(HoleFeature hole)
    {
        double angle = hole.SlotAngleDeg * Math.PI / 180;
        Point2 half = new Point2(Math.Cos(angle), Math.Sin(angle)) * (hole.SlotLength / 2);
        Contour edge =
            hole.SlotLength > 0
                ? Contours.Slot(hole.At - half, hole.At + half, hole.Diameter / 2)
                : Contours.Circle(hole.At, hole.Diameter / 2);
        return hole with { Removals = [hole.Removals[0] with { Area = [Region.From(edge)] }] };
    }

    /// <summary>A groove whose removal is made again from its lines and width.</summary>
    public static GrooveFeature? Groove(GrooveFeature groove)
    {
        if (groove.Width < 0.5)
        {
            return null;
        }
        ImmutableArray<Region> area = Kernel.UnionAll([
            .. groove.Loops.SelectMany(l => Kernel.Stroke(l, groove.Width)),
            .. groove.Runs.SelectMany(r => Kernel.Stroke(r, groove.Width)),
        ]);
        return groove with { Removals = [groove.Removals[0] with { Area = area }] };
    }

    /// <summary>A trim cut moved as a whole.</summary>
    public static TrimCut Place(TrimCut cut, Pose pose) =>
        cut with
        {
            Edge = Transform.Apply(pose, cut.Edge),
            Path = Transform.Apply(pose, cut.Path),
            LeadIn = Transform.Apply(pose, cut.LeadIn),
            LeadOut = Transform.Apply(pose, cut.LeadOut),
            Clearing = [.. cut.Clearing.Select(c => Transform.Apply(pose, c))],
            Sweep = [.. cut.Sweep.Select(r => Transform.Apply(pose, r))],
        };

    /// <summary>A trim cut turned over about the line x = axis; it keeps its way round.</summary>
    public static TrimCut Mirror(TrimCut cut, double axis)
    {
        Flip flip = new(axis);
        return cut with
        {
            Edge = Transform.Apply(flip, cut.Edge),
            Path = Transform.Apply(flip, cut.Path),
            LeadIn = Back(Transform.Apply(flip, cut.LeadOut)),
            LeadOut = Back(Transform.Apply(flip, cut.LeadIn)),
            Clearing = [.. cut.Clearing.Select(c => Transform.Apply(flip, c))],
            Sweep = [.. cut.Sweep.Select(r => Transform.Apply(flip, r))],
        };
    }

    /// <summary>The same cut run the other way round.</summary>
    public static TrimCut Reverse(TrimCut cut) =>
        cut with
        {
            Path = Contours.Reverse(cut.Path),
            LeadIn = Back(cut.LeadOut),
            LeadOut = Back(cut.LeadIn),
        };

    private static OpenPath Back(OpenPath path) => new([.. path.Segments.Reverse().Select(s => s.Reversed)]);
}

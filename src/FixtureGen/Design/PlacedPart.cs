using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design;

/// <summary>A part where the job puts it: everything that its drawing shows, from the part frame to the plate frame.</summary>
public static class PlacedPart
{
    /// <summary>Outline, cutouts, forms, keep-outs, magnet wishes and marks, turned and shifted.</summary>
    public static Part Place(Pose pose, Part part) =>
        new(
            Transform.Apply(pose, part.Outer),
            Each(part.Cutouts, c => Transform.Apply(pose, c)),
            Each(part.Forms, f => f with { Edge = Transform.Apply(pose, f.Edge) }),
            Each(part.KeepOuts, k => Transform.Apply(pose, k)),
            Each(part.MagnetWishes, p => Transform.Apply(pose, p)),
            Each(part.Engravings, e => Place(pose, e))
        );

    /// <summary>Strokes, place and angle (degrees, not brought under a full turn) of a mark; its letter height stays.</summary>
    public static EngraveMark Place(Pose pose, EngraveMark mark) =>
        mark with
        {
            Strokes = Each(mark.Strokes, s => Transform.Apply(pose, s)),
            At = Transform.Apply(pose, mark.At),
            AngleDeg = mark.AngleDeg + pose.AngleDeg,
        };

    private static ImmutableArray<T> Each<T>(ImmutableArray<T> items, Func<T, T> map) => [.. items.Select(map)];
}

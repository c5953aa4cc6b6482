using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Tests.Toolpaths;

/// <summary>Parts of different nature, part frame, mm.</summary>
internal static class PartShapes
{
    public static ImmutableSortedDictionary<string, Part> All { get; } =
        new Dictionary<string, Part>(StringComparer.Ordinal)
        {
            ["plain"] = Part(Contours.RoundedRectangle(new Box2(0, 0, 115, 80), 14)),
            ["cutouts"] = Part(
                Contours.RoundedRectangle(new Box2(0, 0, 150, 120), 14),
                Contours.Circle(new Point2(75, 60), 12),
                Contours.Slot(new Point2(30, 100), new Point2(60, 100), 4)
            ),
            ["bay"] = Part(Bay()),
            ["disc"] = Part(
                Contours.Circle(new Point2(0, 0), 55),
                Contours.RoundedRectangle(new Box2(-12, -10, 12, 10), 4)
            ),
        }.ToImmutableSortedDictionary(StringComparer.Ordinal);

    private static Part Part(Contour outer, params ImmutableArray<Contour> cutouts) =>
        new(outer, [.. cutouts.Select(Contours.Cw)], [], [], [], []);

    /// <summary>A plate with a round-bottomed bay from one side.</summary>
    private static Contour Bay() =>
        new([
            Segment.Line(new(0, 0), new(140, 0)),
            Segment.Line(new(140, 0), new(140, 100)),
            Segment.Line(new(140, 100), new(95, 100)),
            Segment.Line(new(95, 100), new(95, 70)),
            Segment.Arc(new(95, 70), new(45, 70), new(70, 70), ccw: false),
            Segment.Line(new(45, 70), new(45, 100)),
            Segment.Line(new(45, 100), new(0, 100)),
            Segment.Line(new(0, 100), new(0, 0)),
        ]);
}

using System.Collections.Immutable;
using FixtureGen.Design.Block;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Vacuum;

/// <summary>A hole's way to the plate's vacuum: where it is, what feeds it, what is cut for it and its links.</summary>
internal sealed record Way(Point2 At, string Feeds, ImmutableArray<Feature> Features, ImmutableArray<VacuumLink> Links);

/// <summary>
/// Holes straight through the block into the plate's vacuum, over a port or over a groove that leads to one, where the
/// tool may break through.
/// </summary>
internal static class PlateFeed
{
    /// <param name="hole">The hole's name.</param>
    /// <param name="room">Where the centre of a hole of a given radius may lie.</param>
    public static Way? Straight(string hole, Func<double, IReadOnlyList<Region>> room, Levels levels, Job job) =>
        OverPort(hole, room, levels, job.Plate) ?? OverGroove(hole, room, levels, job.Plate);

    /// <summary>
    /// A hole of at most this diameter just there, where a port or a groove under it takes the tool's disc off its middle.
    /// It is of the usual size or of a drill that the job has.
    /// </summary>
    public static Way? FeedAt(string hole, Point2 at, double most, Levels levels, Job job)
    {
        Plate plate = job.Plate;
        foreach (PlateOpening port in plate.Ports.OrderBy(p => Math.Round(p.At.DistanceTo(at), 3)).ThenBy(p => p.Name))
        {
            if (Bored(port, port.At.DistanceTo(at), most, levels, job) is { } diameter)
            {
                double section = PortSize.Section(Math.Min(diameter, port.Diameter));
                HoleFeature through = Through(hole, at, diameter, port, levels);
                return new(at, port.Name, [through], [new(port.Name, hole, section, levels.Face)]);
            }
        }
        foreach (PlateGroove groove in plate.Grooves)
        {
            PlateOpening opening = Opening(groove);
            Point2 under = Measure.Closest(at, groove.Run);
            if (Bored(opening, under.DistanceTo(at), most, levels, job) is { } diameter)
            {
                return Into(groove, opening with { At = under }, hole, at, diameter, levels, plate);
            }
        }
        return null;
    }

    /// <summary>The largest hole off the opening's middle that it takes and a tool makes.</summary>
    private static double? Bored(PlateOpening opening, double off, double most, Levels levels, Job job) =>
        job
            .Tools.Where(t => t.Kind == ToolKind.Drill && t.FluteLength >= levels.Face)
            .Select(t => t.Diameter)
            .Append(PortSize.UsualDiameter)
            .Where(d => d >= PortSize.LeastDiameter && d <= Math.Min(most, PortSize.UsualDiameter))
            .Where(d => BreakThrough.Allowed(opening, d, 2 * off))
            .OrderDescending()
            .Select(d => (double?)d)
            .FirstOrDefault();

    private static Way? OverPort(string hole, Func<double, IReadOnlyList<Region>> room, Levels levels, Plate plate)
    {
        foreach (PlateOpening port in plate.Ports.OrderBy(p => p.Name, StringComparer.Ordinal))
        {
            if (Diameter(port) is not { } diameter || !Inside.Contains(room(diameter / 2), port.At))
            {
                continue;
            }
            double section = PortSize.Section(Math.Min(diameter, port.Diameter));
            return new(
                port.At,
                port.Name,
                [Through(hole, port.At, diameter, port, levels)],
                [new(port.Name, hole, section, levels.Face)]
            );
        }
        return null;
    }

    private static Way? OverGroove(string hole, Func<double, IReadOnlyList<Region>> room, Levels levels, Plate plate)
    {
        foreach (PlateGroove groove in plate.Grooves)
        {
            PlateOpening opening = Opening(groove);
            if (Diameter(opening) is not { } diameter)
            {
                continue;
            }
            OpenPath? longest = Clip.Path(groove.Run, room(diameter / 2))
                .OrderByDescending(p => Math.Round(Measure.Length(p), 3))
                .FirstOrDefault();
            if (longest is not null)
            {
                Point2 at = Measure.PointAlong(longest, Measure.Length(longest) / 2);
                return Into(groove, opening with { At = at }, hole, at, diameter, levels, plate);
            }
        }
        return null;
    }

    /// <summary>What a groove offers a tool that breaks through over it.</summary>
    private static PlateOpening Opening(PlateGroove groove) =>
        new($"groove of {groove.Port}", OpeningKind.Port, default, groove.Width, groove.Width, groove.Depth);

    private static Way Into(
        PlateGroove groove,
        PlateOpening opening,
        string hole,
        Point2 at,
        double diameter,
        Levels levels,
        Plate plate
    ) =>
        new(
            at,
            opening.Name,
            [Through(hole, at, diameter, opening, levels)],
            [
                new(
                    groove.Port,
                    opening.Name,
                    groove.Width * groove.Depth,
                    plate.Ports.First(p => p.Name == groove.Port).At.DistanceTo(at)
                ),
                new(opening.Name, hole, PortSize.Section(diameter), levels.Face),
            ]
        );

    /// <summary>The usual feed hole or what the opening's relief takes; null where that is too little.</summary>
    private static double? Diameter(PlateOpening opening)
    {
        double diameter = Math.Min(PortSize.UsualDiameter, opening.ReliefDiameter - (2 * BreakThrough.Beside));
        return diameter >= PortSize.LeastDiameter && BreakThrough.Allowed(opening, diameter, 0) ? diameter : null;
    }

    private static HoleFeature Through(string name, Point2 at, double diameter, PlateOpening opening, Levels levels) =>
        RoundHole.Make(
            name,
            FeatureKind.Port,
            Setup.Top,
            at,
            diameter,
            levels.Face,
            0,
            breaksThrough: true,
            opening: opening
        );
}

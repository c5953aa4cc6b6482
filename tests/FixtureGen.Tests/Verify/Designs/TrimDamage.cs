using System.Collections.Immutable;
using FixtureGen.Design.Trim;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Tests.Verify.Designs;

/// <summary>The production trim spoiled.</summary>
internal static class TrimDamage
{
    private static readonly Kernel Kernel = new(Tolerances.House);

    public static IEnumerable<(string Name, Spoil Spoil)> Kinds()
    {
        yield return ("trim moved", Cut((c, _, d) => Shifts.Place(c, Pose(d.Way(0.15, 2)))));
        yield return (
            "trim turned",
            Cut((c, _, d) => Shifts.Place(c, Shifts.About(c.Edge.Segments[0].Start, d.Between(0.5, 5))))
        );
        yield return (
            "trim mirrored",
            Cut((c, _, d) => Shifts.Mirror(c, Measure.Bounds(c.Edge).Middle.X + d.Between(0.3, 1)))
        );
        yield return ("trim into the part", Edge((r, d) => Kernel.Offset(r, -d.Between(0.15, 1))));
        yield return ("trim off the part", Edge((r, d) => Kernel.Offset(r, d.Between(0.15, 1))));
        yield return ("trim reversed", Cut((c, _, _) => Shifts.Reverse(c)));
        yield return ("trim shallower", Cut((c, _, d) => c with { FloorZ = c.FloorZ + d.Between(0.1, 1) }));
        yield return ("trim deeper", Cut((c, _, d) => c with { FloorZ = c.FloorZ - d.Between(0.1, 0.4) }));
        yield return ("cutout forgotten", Forget(TrimKind.Cutout));
        yield return ("outline forgotten", Forget(TrimKind.Outline));
        yield return ("cutout twice", (design, _, draw) => Twice(design, draw));
        yield return ("outline first", (design, _, _) => First(design));
        yield return ("bridges dropped", Cut((c, _, _) => c.Tabs.IsEmpty ? null : c with { Tabs = [] }));
        yield return ("bridges shorter", Cut((c, _, d) => Bridges(c, -d.Between(0.5, 3))));
        yield return ("bridges longer", Cut((c, _, d) => Bridges(c, d.Between(0.5, 5))));
        yield return ("other trim cutter", Cut((c, job, d) => Other(c, job, d)));
    }

    private static Pose Pose(Point2 by) => new(by.X, by.Y, 0);

    private static Spoil Cut(Func<TrimCut, Job, Draw, TrimCut?> change) =>
        (design, job, draw) =>
            draw.One(design.TrimCuts) is { } cut && change(cut, job, draw) is { } other
                ? design with
                {
                    TrimCuts = design.TrimCuts.Replace(cut, other),
                }
                : null;

    /// <summary>All cuts planned again for a part that is a little larger or smaller than drawn.</summary>
    private static Spoil Edge(Func<Region, Draw, ImmutableArray<Region>> change) =>
        (design, job, draw) =>
        {
            ImmutableArray<Region> other = change(Region.From(design.Part.Outer), draw);
            if (other.Length != 1)
            {
                return null;
            }
            Part part = design.Part with { Outer = other[0].Outer };
            return TrimPlanner.Plan(part, job, Kernel).Value is { IsDefault: false } cuts
                ? design with
                {
                    TrimCuts = cuts,
                }
                : null;
        };

    private static Spoil Forget(TrimKind kind) =>
        (design, _, draw) =>
            draw.One([.. design.TrimCuts.Where(c => c.Kind == kind)]) is { } cut && design.TrimCuts.Length > 1
                ? design with
                {
                    TrimCuts = design.TrimCuts.Remove(cut),
                }
                : null;

    private static FixtureDesign? Twice(FixtureDesign design, Draw draw) =>
        draw.One([.. design.TrimCuts.Where(c => c.Kind == TrimKind.Cutout)]) is { } cut
            ? design with
            {
                TrimCuts = design.TrimCuts.Insert(0, cut with { Name = cut.Name + " again" }),
            }
            : null;

    private static FixtureDesign? First(FixtureDesign design) =>
        design.TrimCuts.Length < 2 ? null : design with { TrimCuts = [design.TrimCuts[^1], .. design.TrimCuts[..^1]] };

    private static TrimCut? Bridges(TrimCut cut, double longer) =>
        cut.Tabs.IsEmpty || cut.Tabs[0].Length + longer < 0.5
            ? null
            : cut with
            {
                Tabs = [.. cut.Tabs.Select(t => t with { Length = t.Length + longer })],
            };

    private static TrimCut? Other(TrimCut cut, Job job, Draw draw) =>
        draw.One([.. job.Tools.Where(t => t.Kind == ToolKind.EndMill && t.Diameter != cut.Tool.Diameter)]) is { } tool
            ? cut with
            {
                Tool = tool,
            }
            : null;
}

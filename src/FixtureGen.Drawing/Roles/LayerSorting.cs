using System.Collections.Immutable;
using FixtureGen.Drawing.Chaining;
using FixtureGen.Model;

namespace FixtureGen.Drawing.Roles;

/// <summary>The drawing's curves by what they are for.</summary>
internal sealed record SortedCurves(
    ImmutableArray<DrawnCurve> Outline,
    ImmutableArray<DrawnCurve> Cutout,
    ImmutableArray<DrawnCurve> Engrave,
    ImmutableArray<DrawnCurve> Form,
    ImmutableArray<DrawnCurve> Magnet,
    ImmutableArray<DrawnCurve> KeepOut
);

/// <summary>Sorts curves into roles by layer name, without case; a drawing whose other curves lie on one layer needs no outline layer.</summary>
internal static class LayerSorting
{
    public static bool Same(string a, string b) =>
        string.Equals(a.Trim(), b.Trim(), StringComparison.OrdinalIgnoreCase);

    /// <summary>Null where no outline stands out from the rest; the finding says so.</summary>
    public static SortedCurves? Sort(DrawingContent drawing, Job job, List<Finding> findings)
    {
        LayerRoles roles = job.Layers;
        ImmutableArray<DrawnCurve> outline = On(roles.Outline);
        List<DrawnCurve> rest = [.. drawing.Curves.Where(c => !IsForm(c.Layer) && !IsOther(c.Layer))];
        List<IGrouping<string, DrawnCurve>> layers =
        [
            .. rest.GroupBy(c => c.Layer.ToUpperInvariant(), StringComparer.Ordinal)
                .OrderBy(g => g.Key, StringComparer.Ordinal),
        ];
        if (outline.IsEmpty && layers.Count == 1)
        {
            outline = [.. layers[0]];
        }
        else if (outline.IsEmpty)
        {
            findings.Add(
                layers.Count == 0
                    ? PartFindings.NothingDrawn(drawing.File, roles.Outline)
                    : PartFindings.WhichLayer(
                        drawing.File,
                        roles.Outline,
                        [.. layers.Select(g => g.First().Layer)],
                        Widest(layers)
                    )
            );
            return null;
        }
        else if (layers.Count > 0)
        {
            findings.Add(PartFindings.LayersUnused(drawing.File, [.. layers.Select(g => g.First().Layer)], rest.Count));
        }
        return new SortedCurves(
            outline,
            On(roles.Cutout),
            On(roles.Engrave),
            [.. drawing.Curves.Where(c => IsForm(c.Layer))],
            On(roles.Magnet),
            On(roles.KeepOut)
        );

        static string Widest(IEnumerable<IGrouping<string, DrawnCurve>> layers) =>
            layers
                .MaxBy(g =>
                {
                    Box2 box = g.Select(c => LoopMath.Bounds(c.Path.Segments)).Aggregate(LoopMath.Around);
                    return box.Width * box.Height;
                })!
                .First()
                .Layer;

        ImmutableArray<DrawnCurve> On(string layer) => [.. drawing.Curves.Where(c => Same(c.Layer, layer))];

        bool IsForm(string layer) =>
            !IsOther(layer) && (Same(layer, roles.Form) || job.Forms.Any(f => Same(f.Layer, layer)));

        bool IsOther(string layer) =>
            Same(layer, roles.Outline)
            || Same(layer, roles.Cutout)
            || Same(layer, roles.Engrave)
            || Same(layer, roles.Magnet)
            || Same(layer, roles.KeepOut);
    }
}

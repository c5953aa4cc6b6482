using System.Collections.Immutable;
using FixtureGen.Drawing.Chaining;
using FixtureGen.Model;

namespace FixtureGen.Drawing.Roles;

/// <summary>What the drawing has for each role.</summary>
internal sealed record SortedCurves(
    ILookup<CurveRole, DrawnCurve> Curves,
    ImmutableArray<DrawnPoint> Magnets,
    ImmutableArray<DrawnText> Texts
)
{
    public ImmutableArray<DrawnCurve> this[CurveRole role] => [.. Curves[role]];
}

/// <summary>
/// Sorts curves, points and texts into roles and says what is left over. A drawing whose curves without a role lie on one
/// layer needs no outline layer: they are the outline and, by nesting, its cutouts.
/// </summary>
internal sealed class RoleSorting(DrawingContent drawing, DrawingRoles roles, ImmutableArray<FormSpec> forms)
{
    private readonly RoleTable _table = new(roles, forms);
    private readonly List<(CurveRole Role, DrawnCurve Curve)> _given = [];
    private readonly List<DrawnCurve> _without = [];
    private readonly SortedDictionary<Unused, List<DrawnCurve>> _unused = [];

    /// <summary>Null where no outline stands out from the rest; the finding says so.</summary>
    public SortedCurves? Sort(List<Finding> findings)
    {
        foreach (DrawnCurve curve in drawing.Curves)
        {
            Take(curve);
        }
        ImmutableArray<DrawnPoint> magnets = [.. drawing.Points.Where(p => Plays(CurveRole.Magnet, p.Layer, p.Look))];
        ImmutableArray<DrawnText> texts = [.. drawing.Texts.Where(t => Plays(CurveRole.Engrave, t.Layer, t.Look))];
        bool outlined = Outlined(findings);
        string likely = outlined ? "cutout" : "outline";
        findings.AddRange(
            _unused.Select(u => RoleFindings.NotUsed(drawing.File, u.Key, u.Value, ClosedAmong(u.Value), likely))
        );
        findings.AddRange(_table.NotFound.Select(n => RoleFindings.NothingOfIt(drawing.File, n, Kind(n))));
        int words = drawing.Texts.Count(t => Given(t.Layer, t.Look).Role is null);
        int points = drawing.Points.Count(p => Given(p.Layer, p.Look).Role is null);
        if (words + points > 0)
        {
            findings.Add(RoleFindings.WordsUnused(drawing, words, points));
        }
        if (!drawing.Paper.IsEmpty)
        {
            findings.Add(RoleFindings.Paper(drawing.File, drawing.Paper));
        }
        return outlined ? new SortedCurves(_given.ToLookup(g => g.Role, g => g.Curve), magnets, texts) : null;
    }

    private void Take(DrawnCurve curve)
    {
        GivenRole given = Given(curve.Layer, curve.Look);
        if (given.Role == CurveRole.Ignore)
        {
            return;
        }
        if (given.Unused is { } why)
        {
            _unused.TryAdd(why, []);
            _unused[why].Add(curve);
        }
        else if (given.Role is { } role)
        {
            _given.Add((role, curve));
        }
        else
        {
            _without.Add(curve);
        }
    }

    private GivenRole Given(string layer, CurveLook look) => _table.Give(layer, look);

    private bool Plays(CurveRole role, string layer, CurveLook look) =>
        Given(layer, look with { Broken = false }) == new GivenRole(role, null);

    private bool Outlined(List<Finding> findings)
    {
        List<IGrouping<string, DrawnCurve>> layers =
        [
            .. _without
                .GroupBy(c => c.Layer.ToUpperInvariant(), StringComparer.Ordinal)
                .OrderBy(g => g.Key, StringComparer.Ordinal),
        ];
        if (_given.Exists(g => g.Role == CurveRole.Outline))
        {
            findings.AddRange(LeftOver(layers));
            return true;
        }
        if (layers.Count == 1)
        {
            _given.AddRange(layers[0].Select(c => (CurveRole.Outline, c)));
            return true;
        }
        string house = (
            roles.Layers.FirstOrDefault(r => r.Role == CurveRole.Outline) ?? DrawingRoles.House.Layers[0]
        ).Name;
        ImmutableArray<SuggestedRole> suggested = RoleSuggestion.ByLayer(drawing, roles);
        findings.Add(
            layers.Count == 0
                ? RoleFindings.NothingDrawn(drawing.File, house)
                : RoleFindings.WhichLayer(
                    drawing.File,
                    house,
                    [.. layers.Select(g => g.First().Layer)],
                    suggested,
                    PartBuilder.Build(drawing, RoleSuggestion.Apply(roles, suggested), forms)
                )
        );
        return false;
    }

    private IEnumerable<Finding> LeftOver(List<IGrouping<string, DrawnCurve>> layers)
    {
        var closed = new List<(string Layer, int Count)>();
        var open = new List<string>();
        foreach (IGrouping<string, DrawnCurve> layer in layers)
        {
            if (ClosedAmong([.. layer]) is > 0 and var count)
            {
                closed.Add((layer.First().Layer, count));
            }
            else
            {
                open.Add(layer.First().Layer);
            }
        }
        if (closed.Count > 0)
        {
            yield return RoleFindings.ClosedWithoutRole(drawing.File, closed, RoleSuggestion.ByLayer(drawing, roles));
        }
        if (open.Count > 0)
        {
            yield return RoleFindings.LayersUnused(
                drawing.File,
                [.. open],
                _without.Count(c => open.Exists(o => RoleTable.Same(o, c.Layer)))
            );
        }
    }

    private int ClosedAmong(List<DrawnCurve> curves) =>
        Chainer.Chain(curves, ChainLimits.From(drawing.Tolerances, inMm: true), drawing.File).Loops.Length;

    private string Kind(RoleName name) =>
        roles.LineTypes.Contains(name) ? "line type"
        : roles.Colours.Contains(name) ? "colour"
        : "layer";
}

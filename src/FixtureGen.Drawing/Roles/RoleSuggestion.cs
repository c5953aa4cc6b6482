using System.Collections.Immutable;
using FixtureGen.Drawing.Chaining;
using FixtureGen.Model;

namespace FixtureGen.Drawing.Roles;

/// <summary>A role that a layer, colour or line type looks like having. It decides nothing: a job has to say it.</summary>
/// <param name="Name">The layer, colour or line type.</param>
/// <param name="Role">What it looks like.</param>
/// <param name="Closed">Closed curves that bear it.</param>
/// <param name="Open">Open chains that bear it.</param>
public sealed record SuggestedRole(string Name, CurveRole Role, int Closed, int Open);

/// <summary>
/// Guesses roles from names (INT, HOLE, DIM ...) and from where closed curves lie: the layer of the largest one is the
/// outline's, what lies inside it are cutouts, the rest is no part.
/// </summary>
public static class RoleSuggestion
{
    private static readonly (CurveRole Role, string[] Words)[] Hints =
    [
        (
            CurveRole.Ignore,
            [
                "DIM",
                "NOTE",
                "FRAME",
                "BORDER",
                "TITLE",
                "SHEET",
                "CENTER",
                "CENTRE",
                "HIDDEN",
                "HATCH",
                "CONSTR",
                "DEFPOINTS",
                "AUX",
                "BEND",
            ]
        ),
        (CurveRole.Engrave, ["ENGR", "ETCH", "MARK", "TEXT", "SCRIBE"]),
        (CurveRole.Magnet, ["MAGNET"]),
        (CurveRole.KeepOut, ["KEEP", "CLAMP"]),
        (CurveRole.Form, ["FORM"]),
        (CurveRole.Cutout, ["INT", "INNER", "INSIDE", "HOLE", "CUTOUT", "DRILL", "SLOT", "POCKET", "OPENING"]),
        (
            CurveRole.Outline,
            ["OUTLINE", "EXT", "OUTER", "OUTSIDE", "PROFILE", "CONTOUR", "PERIMETER", "EDGE", "PART", "TRIM"]
        ),
    ];

    /// <summary>A role for each layer that has curves and that <paramref name="roles"/> give none, in order of their names.</summary>
    public static ImmutableArray<SuggestedRole> ByLayer(DrawingContent drawing, DrawingRoles roles)
    {
        RoleTable table = new(roles, []);
        return Suggest(drawing, drawing.Curves.Where(c => table.Give(c.Layer, c.Look) == default), c => c.Layer, table);
    }

    /// <summary>The same for colours, where all curves without a role lie on one layer.</summary>
    public static ImmutableArray<SuggestedRole> ByColour(DrawingContent drawing, DrawingRoles roles)
    {
        RoleTable table = new(roles, []);
        DrawnCurve[] without = [.. drawing.Curves.Where(c => table.Give(c.Layer, c.Look) == default)];
        return
            without.Select(c => c.Layer).Distinct(StringComparer.OrdinalIgnoreCase).Count() != 1
            || without.Select(c => c.Look.Colour).Distinct(StringComparer.Ordinal).Count() < 2
            ? []
            : Suggest(drawing, without, c => c.Look.Colour, table);
    }

    /// <summary>Line types that are not solid and have no role yet, each to be ignored or, with closed curves, a cutout.</summary>
    public static ImmutableArray<SuggestedRole> ByLineType(DrawingContent drawing, DrawingRoles roles)
    {
        RoleTable table = new(roles, []);
        var limits = ChainLimits.From(drawing.Tolerances, drawing.Unit is not null);
        return
        [
            .. drawing
                .Curves.Where(c => table.Give(c.Layer, c.Look).Unused == Unused.Broken)
                .GroupBy(c => c.Look.LineType, StringComparer.Ordinal)
                .OrderBy(g => g.Key, StringComparer.Ordinal)
                .Select(g => (g.Key, Chained: Chainer.Chain(g, limits, drawing.File)))
                .Select(g => new SuggestedRole(
                    g.Key,
                    g.Chained.Loops.IsEmpty ? CurveRole.Ignore : CurveRole.Cutout,
                    g.Chained.Loops.Length,
                    g.Chained.Open.Length
                )),
        ];
    }

    /// <summary>The roles with the suggested layers as if the job stated them.</summary>
    internal static DrawingRoles Apply(DrawingRoles roles, ImmutableArray<SuggestedRole> suggested) =>
        roles with
        {
            Layers = [.. suggested.Select(s => new RoleName(s.Role, s.Name, true)), .. roles.Layers],
        };

    /// <summary>Names as a TOML value: one in quotes, or a list.</summary>
    public static string Toml(IReadOnlyList<string> names) => RoleFindings.Toml(names);

    /// <summary>The role's key in a job.</summary>
    public static string Key(CurveRole role) => role.ToString().ToLowerInvariant();

    private static ImmutableArray<SuggestedRole> Suggest(
        DrawingContent drawing,
        IEnumerable<DrawnCurve> curves,
        Func<DrawnCurve, string> name,
        RoleTable table
    )
    {
        var limits = ChainLimits.From(drawing.Tolerances, drawing.Unit is not null);
        List<(string Name, Chained Chained)> groups =
        [
            .. curves
                .GroupBy(c => name(c).ToUpperInvariant(), StringComparer.Ordinal)
                .OrderBy(g => g.Key, StringComparer.Ordinal)
                .Select(g => (name(g.First()), Chainer.Chain(g, limits, drawing.File))),
        ];
        DrawnCurve[] given = [.. drawing.Curves.Where(c => table.Give(c.Layer, c.Look).Role == CurveRole.Outline)];
        DrawnLoop? outline =
            given.Length > 0 ? Chainer.Chain(given, limits, drawing.File).Loops.FirstOrDefault() : Largest(groups);
        return
        [
            .. groups.Select(g => new SuggestedRole(
                g.Name,
                Guess(g.Name, g.Chained, outline, given.Length > 0),
                g.Chained.Loops.Length,
                g.Chained.Open.Length
            )),
        ];
    }

    // by name before by size, and what is named for something else last
    private static DrawnLoop? Largest(List<(string Name, Chained Chained)> groups) =>
        groups
            .Where(g => !g.Chained.Loops.IsEmpty)
            .OrderByDescending(g => Hint(g.Name) == CurveRole.Outline)
            .ThenByDescending(g => Hint(g.Name) is null)
            .ThenByDescending(g => g.Chained.Loops[0].AreaMm2)
            .Select(g => g.Chained.Loops[0])
            .FirstOrDefault();

    private static CurveRole Guess(string name, Chained chained, DrawnLoop? outline, bool outlineGiven)
    {
        CurveRole? hint = Hint(name);
        if (!outlineGiven && outline is not null && chained.Loops.Contains(outline))
        {
            return CurveRole.Outline;
        }
        if (chained.Loops.IsEmpty)
        {
            return hint is CurveRole.Engrave ? CurveRole.Engrave : CurveRole.Ignore;
        }
        if (hint is { } named and not CurveRole.Outline)
        {
            return named;
        }
        return outline is not null && chained.Loops.All(l => LoopDepths.Around(outline, l))
            ? CurveRole.Cutout
            : CurveRole.Ignore;
    }

    private static CurveRole? Hint(string name)
    {
        string upper = name.ToUpperInvariant();
        foreach ((CurveRole role, string[] words) in Hints)
        {
            if (Array.Exists(words, w => upper.Contains(w, StringComparison.Ordinal)))
            {
                return role;
            }
        }
        return null;
    }
}

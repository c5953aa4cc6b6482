using System.Collections.Immutable;
using FixtureGen.Drawing.Chaining;
using FixtureGen.Model;

namespace FixtureGen.Drawing.Roles;

/// <summary>Why a curve is no edge of the part although it lies where one would be looked for.</summary>
internal enum Unused
{
    /// <summary>Drawn dashed, dotted or as a centre line.</summary>
    Broken,

    /// <summary>Made invisible by itself.</summary>
    Invisible,

    /// <summary>On a layer that is off.</summary>
    LayerOff,

    /// <summary>On a frozen layer.</summary>
    LayerFrozen,

    /// <summary>On a layer that is not plotted.</summary>
    LayerNotPlotted,
}

/// <summary>What a job makes of a curve: its role, null for none, and why it is not used all the same, null where it is.</summary>
internal readonly record struct GivenRole(CurveRole? Role, Unused? Unused);

/// <summary>
/// Gives curves their roles. What is to be ignored goes before all; then line type goes before colour before layer. A role
/// stated for a line type takes its dashed curves too, one stated for a layer also what that layer hides.
/// </summary>
internal sealed class RoleTable(DrawingRoles roles, ImmutableArray<FormSpec> forms)
{
    private readonly HashSet<RoleName> _found = [];

    public static bool Same(string a, string b) =>
        string.Equals(a.Trim(), b.Trim(), StringComparison.OrdinalIgnoreCase);

    /// <summary>What the job states and nothing asked for so far bore.</summary>
    public IEnumerable<RoleName> NotFound =>
        roles.LineTypes.Concat(roles.Colours).Concat(roles.Layers).Where(r => r.Stated && !_found.Contains(r));

    public GivenRole Give(string layer, CurveLook look)
    {
        RoleName? byLineType = Find(roles.LineTypes, look.LineType);
        RoleName? byColour = Find(roles.Colours, look.Colour);
        RoleName? byLayer = Find(roles.Layers, layer);
        if (byLayer is null && forms.Any(f => Same(f.Layer, layer)))
        {
            byLayer = new RoleName(CurveRole.Form, layer, true);
        }
        if (
            byLineType?.Role == CurveRole.Ignore
            || byColour?.Role == CurveRole.Ignore
            || byLayer?.Role == CurveRole.Ignore
        )
        {
            return new GivenRole(CurveRole.Ignore, null);
        }
        CurveRole? role = (byLineType ?? byColour ?? byLayer)?.Role;
        return new GivenRole(role, Why(look, role, byLineType is not null, byLayer is { Stated: true }));
    }

    private Unused? Why(CurveLook look, CurveRole? role, bool lineTypeStated, bool layerStated)
    {
        if (look.Hidden.HasFlag(Hiding.Invisible) && !roles.Invisible)
        {
            return Unused.Invisible;
        }
        if (!layerStated && (look.Hidden & ~Hiding.Invisible) != Hiding.None)
        {
            return look.Hidden.HasFlag(Hiding.LayerFrozen) ? Unused.LayerFrozen
                : look.Hidden.HasFlag(Hiding.LayerOff) ? Unused.LayerOff
                : Unused.LayerNotPlotted;
        }
        // what is no edge is dashed by good custom: a form below, a magnet in the block, a clearance
        bool edge = role is not (CurveRole.Form or CurveRole.Magnet or CurveRole.KeepOut);
        return look.Broken && edge && !lineTypeStated ? Unused.Broken : null;
    }

    private RoleName? Find(ImmutableArray<RoleName> names, string name)
    {
        RoleName? found = names.FirstOrDefault(r => Same(r.Name, name));
        if (found is not null)
        {
            _found.Add(found);
        }
        return found;
    }
}

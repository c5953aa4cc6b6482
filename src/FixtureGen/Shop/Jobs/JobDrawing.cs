using FixtureGen.Model;
using FixtureGen.Shop.Reading;

namespace FixtureGen.Shop.Jobs;

/// <summary>How a job wants its drawing read: the unit, and which layer has which role.</summary>
internal static class JobDrawing
{
    /// <summary>[drawing]: the unit only where the job states it; every role has a layer.</summary>
    public static (LengthUnit? Unit, LayerRoles Layers) Read(TableReader? t)
    {
        LengthUnit? unit = UnitOf(t);
        LayerRoles layers = Layers(t?.InnerOrNull("layers"));
        t?.Close();
        return (unit, layers);
    }

    private static LengthUnit? UnitOf(TableReader? t) =>
        t?.ChoiceOrNull(
            "unit",
            ("mm", LengthUnit.Millimetre),
            ("in", LengthUnit.Inch),
            ("cm", LengthUnit.Centimetre),
            ("m", LengthUnit.Metre),
            ("ft", LengthUnit.Foot),
            ("mil", LengthUnit.Mil),
            ("um", LengthUnit.Micrometre)
        );

    private static LayerRoles Layers(TableReader? t)
    {
        string Role(string key) => t?.TextOr(key, key.ToUpperInvariant()) ?? key.ToUpperInvariant();
        LayerRoles roles = new(
            Role("outline"),
            Role("cutout"),
            Role("engrave"),
            Role("form"),
            Role("magnet"),
            Role("keepout")
        );
        string[] all = [roles.Outline, roles.Cutout, roles.Engrave, roles.Form, roles.Magnet, roles.KeepOut];
        if (t is not null && all.Distinct(StringComparer.OrdinalIgnoreCase).Count() < all.Length)
        {
            t.Contradict("outline", "Two roles have the same layer.", "Give each role a layer of its own.");
        }
        t?.Close();
        return roles;
    }
}

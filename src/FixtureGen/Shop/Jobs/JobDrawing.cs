using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Shop.Reading;

namespace FixtureGen.Shop.Jobs;

/// <summary>How a job wants its drawing read: the unit, the widest gap that is closed, and what in it has which role.</summary>
internal static class JobDrawing
{
    /// <summary>[drawing]: the unit only where the job states it; every role has a layer.</summary>
    public static (LengthUnit? Unit, DrawingRoles Roles, double Join) Read(TableReader? t)
    {
        LengthUnit? unit = UnitOf(t);
        double house = Tolerances.House.Join;
        double join = t?.LengthOr("join", house, Tolerances.House.Chord, DrawingRoles.WidestJoin) ?? house;
        ImmutableArray<RoleName> ignored = Many(t, "ignore", CurveRole.Ignore);
        bool invisible = t?.FlagOr("invisible", false) ?? false;
        DrawingRoles roles = new(
            WithHouse([.. Roles(t?.InnerOrNull("layers"), true), .. ignored]),
            Colours(t?.InnerOrNull("colours")),
            Roles(t?.InnerOrNull("line_types"), false),
            invisible
        );
        if (t is not null)
        {
            Once(t, "layers", roles.Layers);
            Once(t, "colours", roles.Colours);
            Once(t, "line_types", roles.LineTypes);
        }
        t?.Close();
        return (unit, roles, join);
    }

    /// <summary>small_holes at the top of the job or under [drawing], not in both.</summary>
    public static SmallHoles SmallHolesOf(TableReader top, TableReader? drawing) =>
        InOnePlace(
            top,
            drawing,
            "small_holes",
            ("drill", SmallHoles.Drill),
            ("second-cutter", SmallHoles.SecondCutter),
            ("spot", SmallHoles.Spot),
            ("leave", SmallHoles.Leave)
        ) ?? SmallHoles.Unsaid;

    /// <summary>inner_corners at the top of the job or under [drawing], not in both.</summary>
    public static InnerCorners InnerCornersOf(TableReader top, TableReader? drawing) =>
        InOnePlace(
            top,
            drawing,
            "inner_corners",
            ("second-cutter", InnerCorners.SecondCutter),
            ("refuse", InnerCorners.Refuse)
        ) ?? InnerCorners.Unsaid;

    private static T? InOnePlace<T>(TableReader top, TableReader? drawing, string key, params (string, T)[] choices)
        where T : struct, Enum
    {
        T? above = top.ChoiceOrNull(key, choices);
        T? below = drawing?.ChoiceOrNull(key, choices);
        if (above is not null && below is not null)
        {
            drawing!.Contradict(key, $"{key} stands at the top of the job too.", "Take one of them out.");
        }
        return above ?? below;
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
            ("um", LengthUnit.Micrometre),
            ("px", LengthUnit.Pixel)
        );

    /// <summary>The house's layer name for each role of which the job says nothing, unless the job has another use for that layer.</summary>
    private static ImmutableArray<RoleName> WithHouse(ImmutableArray<RoleName> stated) =>
        [
            .. stated,
            .. DrawingRoles.House.Layers.Where(h =>
                !stated.Any(s => s.Role == h.Role || s.Name.Equals(h.Name, StringComparison.OrdinalIgnoreCase))
            ),
        ];

    private static ImmutableArray<RoleName> Roles(TableReader? t, bool layers)
    {
        ImmutableArray<RoleName> roles =
        [
            .. Many(t, "outline", CurveRole.Outline),
            .. Many(t, "cutout", CurveRole.Cutout),
            .. Many(t, "engrave", CurveRole.Engrave),
            .. Many(t, "form", CurveRole.Form),
            .. Many(t, "magnet", CurveRole.Magnet),
            .. Many(t, "keepout", CurveRole.KeepOut),
            .. layers ? [] : Many(t, "ignore", CurveRole.Ignore),
        ];
        t?.Close();
        return roles;
    }

    /// <summary>Each colour in the one spelling that the drawing reader gives it.</summary>
    private static ImmutableArray<RoleName> Colours(TableReader? t)
    {
        var colours = ImmutableArray.CreateBuilder<RoleName>();
        foreach (RoleName stated in Roles(t, false))
        {
            if (DrawingColour.Parse(stated.Name) is { } colour)
            {
                colours.Add(stated with { Name = colour });
            }
            else
            {
                t!.Contradict(
                    stated.Role.ToString().ToLowerInvariant(),
                    $"'{stated.Name}' is no colour.",
                    "Write red, yellow, green, cyan, blue, magenta, black, a colour number from 1 to 255 or \"#rrggbb\"."
                );
            }
        }
        return colours.ToImmutable();
    }

    private static ImmutableArray<RoleName> Many(TableReader? t, string key, CurveRole role) =>
        [.. (t?.Names(key) ?? []).Select(n => new RoleName(role, n, true))];

    private static void Once(TableReader t, string table, ImmutableArray<RoleName> names)
    {
        foreach (
            IGrouping<string, RoleName> twice in names
                .GroupBy(n => n.Name.Trim().ToUpperInvariant(), StringComparer.Ordinal)
                .Where(g => g.Select(n => n.Role).Distinct().Count() > 1)
        )
        {
            t.Contradict(
                table,
                $"'{twice.First().Name}' is given two roles in [drawing.{table}].",
                "Give each name one role."
            );
        }
    }
}

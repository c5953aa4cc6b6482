using FixtureGen.Shop.Files;
using FixtureGen.Shop.Jobs;
using FixtureGen.Shop.Reading;

namespace FixtureGen.Tests.Shop;

/// <summary>One key of one shop file or of a job: where it stands, and what it may be.</summary>
/// <param name="Kind">Folder of templates/; "job" for a job's own.</param>
/// <param name="File">One that has the key, or may have it.</param>
/// <param name="Table">Empty for the top; the first of that name where there are several.</param>
internal sealed record PlausibleKey(string Kind, string File, string Table, PlausibleRange Range);

/// <summary>Every key with a plausible range, once for each class of what it is of.</summary>
internal static class PlausibleTable
{
    private const double Cutter = 3.175;

    public static IReadOnlyList<PlausibleKey> All { get; } =
    [
        .. Material("hdpe", true),
        .. Material("aluminium-6061", false),
        .. Sheet(),
        .. Sponge(),
        .. Solid(),
        .. Magnet(),
        .. Plate(),
        .. Others(),
        .. Job(),
    ];

    private static IEnumerable<PlausibleKey> Material(string file, bool plastic)
    {
        PlausibleRange[] top =
        [
            MaterialRanges.Speed("speed_from", plastic),
            MaterialRanges.Speed("speed_to", plastic),
            MaterialRanges.ForceFrom(plastic),
            MaterialRanges.ForceTo(plastic),
            .. plastic ? new[] { MaterialRanges.Sustained } : [],
            MaterialRanges.StepDown,
            MaterialRanges.StepOver,
            MaterialRanges.Ramp(plastic),
            MaterialRanges.Expansion(plastic),
            MaterialRanges.Friction("shell_friction", plastic),
            MaterialRanges.FrictionFrom("shell_friction", plastic),
            MaterialRanges.FrictionTo("shell_friction", plastic),
        ];
        PlausibleRange[] chips = [MaterialRanges.ChipFrom(plastic, Cutter), MaterialRanges.ChipTo(plastic, Cutter)];
        PlausibleRange[] speeds =
        [
            MaterialRanges.DrillSpeed("speed_from", plastic),
            MaterialRanges.DrillSpeed("speed_to", plastic),
        ];
        PlausibleRange[] feeds = [MaterialRanges.DrillFrom(plastic, Cutter), MaterialRanges.DrillTo(plastic, Cutter)];
        PlausibleRange[] face =
        [
            MaterialRanges.Speed("speed_from", plastic),
            MaterialRanges.Speed("speed_to", plastic),
            MaterialRanges.FaceFrom(plastic),
            MaterialRanges.FaceTo(plastic),
        ];
        return Keys("materials", file, "", top)
            .Concat(Keys("materials", file, "chip_load", chips))
            .Concat(Keys("materials", file, "drill", speeds))
            .Concat(Keys("materials", file, "drill_feed", feeds))
            .Concat(Keys("materials", file, "face", face));
    }

    private static IEnumerable<PlausibleKey> Sheet() =>
        Keys(
            "materials",
            "petg",
            "sheet",
            MaterialRanges.Yield,
            MaterialRanges.ModulusFrom,
            MaterialRanges.ModulusTo,
            MaterialRanges.Poisson,
            MaterialRanges.ShrinkageFrom,
            MaterialRanges.ShrinkageTo
        );

    private static IEnumerable<PlausibleKey> Sponge() =>
        Keys(
            "gaskets",
            "sponge-1-8",
            "",
            GasketRanges.Section,
            GasketRanges.SectionTolerance(3.18),
            GasketRanges.Squeeze(solid: false),
            GasketRanges.DepthTolerance,
            GasketRanges.P25Min,
            GasketRanges.P25Max,
            GasketRanges.CutAllowance,
            GasketRanges.Friction,
            GasketRanges.FrictionFrom,
            GasketRanges.FrictionTo,
            GasketRanges.BendRadius(3.18)
        );

    private static IEnumerable<PlausibleKey> Solid() =>
        Keys(
            "gaskets",
            "solid-1-8",
            "",
            GasketRanges.Squeeze(solid: true),
            GasketRanges.Shore,
            GasketRanges.ShoreTolerance
        );

    private static IEnumerable<PlausibleKey> Magnet() =>
        Keys(
            "magnets",
            "disc-10x5",
            "",
            MagnetRanges.BrMin,
            MagnetRanges.BrMax,
            MagnetRanges.Diameter,
            MagnetRanges.Thickness,
            MagnetRanges.DiameterTolerance,
            MagnetRanges.Plating,
            MagnetRanges.MaxTemperature,
            MagnetRanges.JacketFloor
        );

    private static IEnumerable<PlausibleKey> Plate() =>
        [
            .. Keys("plates", "master", "", PlateRanges.PlacingTolerance, PlateRanges.BlockFriction),
            .. Keys("plates", "master", "seal", PlateRanges.SealReaction),
            .. Keys(
                "plates",
                "master",
                "machine",
                PlateRanges.Acceleration,
                PlateRanges.FeedHold,
                PlateRanges.Reaction
            ),
            .. Keys(
                "plates",
                "master",
                "vacuum",
                PlateRanges.Altitude,
                PlateRanges.Pump,
                PlateRanges.Alarm,
                PlateRanges.AlarmTolerance,
                PlateRanges.Flow,
                PlateRanges.LeakHole
            ),
        ];

    private static IEnumerable<PlausibleKey> Others() =>
        [
            .. Keys("tools", "rack", "tool", ToolRanges.RunOut, ToolRanges.Helix),
            .. Keys("fasteners", "screw-m6", "", ToolRanges.NutFactor),
            .. Keys("blanks", "hdpe-8-5", "", ToolRanges.BlankTolerance(19.05)),
        ];

    private static IEnumerable<PlausibleKey> Job() =>
        [
            .. Keys(
                "job",
                "",
                "shell",
                JobRanges.ShellThickness,
                JobRanges.ThicknessMax(1.5),
                JobRanges.ThicknessMin(1.5),
                JobRanges.SlackMin,
                JobRanges.SlackMax,
                MaterialRanges.Friction("friction", plastic: true),
                MaterialRanges.FrictionFrom("friction", plastic: true),
                MaterialRanges.FrictionTo("friction", plastic: true)
            ),
            .. Keys("job", "", "trim", JobRanges.Dull),
            .. Keys("job", "", "limits", JobRanges.VacuumFactor, JobRanges.MagnetFactor, JobRanges.BlockFactor),
            .. Keys(
                "job",
                "",
                "rules",
                JobRanges.MagnetRecess,
                JobRanges.MagnetGlue,
                JobRanges.TabLength,
                JobRanges.TabThickness,
                JobRanges.LocatorPin,
                JobRanges.LocatorClearance,
                JobRanges.LocatorProjection,
                JobRanges.RunningClearance,
                JobRanges.NetReach
            ),
        ];

    private static IEnumerable<PlausibleKey> Keys(
        string kind,
        string file,
        string table,
        params PlausibleRange[] ranges
    ) => ranges.Select(r => new PlausibleKey(kind, file, table, r));
}

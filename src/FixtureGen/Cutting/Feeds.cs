using System.Collections.Immutable;
using System.Globalization;
using FixtureGen.Model;

namespace FixtureGen.Cutting;

/// <summary>
/// Feeds and speeds: n = vc / (pi D), F = n z fz, Q = ap ae F, P = Q kc (metal cutting's common chain, Machinery's Handbook,
/// speeds and feeds), with radial chip thinning fz / sqrt(1 - (1 - 2 ae/D)^2) below half engagement. The middle of the
/// material's speed and chip-load ranges is aimed at; the machine, the tool and the spindle's power limit it.
/// </summary>
internal static class Feeds
{
    /// <summary>The share of the spindle's power a cut may take (common practice, no source).</summary>
    private const double PowerShare = 0.7;

    /// <summary>Plunge feed as a share of the feed (common practice, no source).</summary>
    private const double PlungeShare = 0.35;

    /// <summary>Chip thinning is not compensated beyond this, where run-out would count more (common practice, no source).</summary>
    private const double MostThinning = 2;

    /// <summary>Widest step between rings, in diameters: at one half no core is left; a little less lets points of depth be dropped.</summary>
    private const double WidestStep = 0.45;

    /// <summary>Share of the ramp limit that is used: heights on short arcs are rounded when written.</summary>
    private const double RampShare = 0.86;

    /// <summary>Spindle speeds and feeds are written in whole steps of this.</summary>
    private const double Round = 10;

    /// <summary>A speed that is lowered to keep the chip load comes down to a whole step of this, so that cuts of one tool that hardly differ have one speed.</summary>
    private const double Coarse = 250;

    /// <summary>For a cut of radial width <paramref name="ae"/> and depth <paramref name="ap"/>, mm; ap 0 means the full step-down.</summary>
    public static CutData For(Tool tool, Material material, Machine machine, double ae, double ap)
    {
        double stepDown = StepDown(tool, material);
        double depth = ap > 0 ? Math.Min(ap, stepDown) : stepDown;
        (double rpm, string speedLimit) = Speed(tool, material, machine);
        (double least, double most) = ChipLoadRange(tool, material);
        double wanted = (least + most) / 2 * Math.Min(MostThinning, CuttingForce.ChipThinning(ae / tool.Diameter));
        double feed = rpm * tool.Flutes * wanted;
        string feedLimit = FormattableString.Invariant($"feed by chip load {wanted:0.000} mm a tooth");
        if (feed > machine.MaxFeedMmPerMin)
        {
            feed = machine.MaxFeedMmPerMin;
            feedLimit = FormattableString.Invariant($"feed by the machine's {machine.MaxFeedMmPerMin:0} mm/min");
            double slower = Math.Floor(feed / (tool.Flutes * wanted) / Coarse) * Coarse;
            if (slower >= machine.MinSpindleRpm)
            {
                rpm = slower;
                speedLimit = "speed lowered to keep the chip load";
            }
        }
        double power = depth * Math.Min(ae, tool.Diameter) * feed * material.SpecificForceMax / 60e6;
        double allowed = PowerShare * machine.SpindlePowerKw;
        if (power > allowed)
        {
            feed *= allowed / power;
            feedLimit = FormattableString.Invariant($"feed by spindle power {machine.SpindlePowerKw:0.00} kW");
        }
        rpm = Math.Max(machine.MinSpindleRpm, Math.Floor(rpm / Round) * Round);
        feed = Math.Max(Round, Math.Floor(feed / Round) * Round);
        return new CutData(
            rpm,
            feed,
            PlungeFor(feed),
            stepDown,
            Math.Min(WidestStep, material.StepOverRatio) * tool.Diameter,
            feed / (rpm * tool.Flutes),
            RampDeg(tool, material),
            speedLimit + "; " + feedLimit
        );
    }

    /// <summary>Plunge feed beside a feed, both mm/min.</summary>
    public static double PlungeFor(double feed) => Math.Max(Round, Math.Floor(feed * PlungeShare / Round) * Round);

    /// <summary>Chip-load range of a tool, mm a tooth: its own where its data give one, else the material's chart for its kind.</summary>
    public static (double Least, double Most) ChipLoadRange(Tool tool, Material material) =>
        tool.ChipLoadIn(material) is { } own ? (own.MinMm, own.MaxMm)
        : Facing(tool, material) is { } face ? (face.MinMm, face.MaxMm)
        : ChipLoadRange(material, tool.Diameter);

    private static FaceChart? Facing(Tool tool, Material material) =>
        tool.Kind == ToolKind.FaceMill ? material.Facing : null;

    /// <summary>Chip-load range at a diameter, mm a tooth: straight between the chart's rows, in proportion below the first, the last row's beyond it.</summary>
    public static (double Least, double Most) ChipLoadRange(Material material, double diameter)
    {
        ImmutableArray<ChipLoad> rows = [.. material.ChipLoads.OrderBy(r => r.Diameter)];
        if (diameter <= rows[0].Diameter)
        {
            double share = diameter / rows[0].Diameter;
            return (rows[0].MinMm * share, rows[0].MaxMm * share);
        }
        for (int i = 1; i < rows.Length; i++)
        {
            if (diameter <= rows[i].Diameter)
            {
                double t = (diameter - rows[i - 1].Diameter) / (rows[i].Diameter - rows[i - 1].Diameter);
                return (
                    rows[i - 1].MinMm + (t * (rows[i].MinMm - rows[i - 1].MinMm)),
                    rows[i - 1].MaxMm + (t * (rows[i].MaxMm - rows[i - 1].MaxMm))
                );
            }
        }
        return (rows[^1].MinMm, rows[^1].MaxMm);
    }

    /// <summary>Spindle speed, rev/min, for a surface speed in m/min at a diameter in mm.</summary>
    public static double Rpm(double speedMPerMin, double diameter) => 1000 * speedMPerMin / (Math.PI * diameter);

    /// <summary>The greatest depth of one pass, mm: material's ratio, the tool's own limit, its flutes.</summary>
    public static double StepDown(Tool tool, Material material)
    {
        double step = Math.Min(material.StepDownRatio * tool.Diameter, tool.FluteLength);
        return tool.MaxStepDown > 0 ? Math.Min(step, tool.MaxStepDown) : step;
    }

    private static (double Rpm, string Limit) Speed(Tool tool, Material material, Machine machine)
    {
        (double slow, double fast) = Facing(tool, material) is { } face
            ? (face.MinSpeedMPerMin, face.MaxSpeedMPerMin)
            : (material.MinSpeedMPerMin, material.MaxSpeedMPerMin);
        return Speed(tool, material.Name, (slow + fast) / 2, machine);
    }

    /// <summary>Spindle speed, rev/min, for a surface speed in m/min, and which of material, tool and machine limits it.</summary>
    internal static (double Rpm, string Limit) Speed(Tool tool, string material, double speed, Machine machine)
    {
        double rpm = Rpm(speed, tool.Diameter);
        string limit = string.Create(CultureInfo.InvariantCulture, $"speed by {speed:0} m/min in {material}");
        if (tool.MaxRpm > 0 && tool.MaxRpm < rpm)
        {
            (rpm, limit) = (
                tool.MaxRpm,
                string.Create(CultureInfo.InvariantCulture, $"speed by the tool's {tool.MaxRpm:0} rpm")
            );
        }
        if (machine.MaxSpindleRpm < rpm)
        {
            rpm = machine.MaxSpindleRpm;
            limit = string.Create(CultureInfo.InvariantCulture, $"speed by the spindle's {rpm:0} rpm");
        }
        return (rpm, limit);
    }

    private static double RampDeg(Tool tool, Material material)
    {
        double ramp = tool.MaxRampDeg > 0 ? Math.Min(tool.MaxRampDeg, material.MaxRampDeg) : material.MaxRampDeg;
        return Math.Clamp(RampShare * ramp, 0.5, 45);
    }
}

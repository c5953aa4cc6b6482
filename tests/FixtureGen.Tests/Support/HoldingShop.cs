using FixtureGen.Model;

namespace FixtureGen.Tests.Support;

/// <summary>Invented shop data for holding tests.</summary>
internal static class HoldingShop
{
    public static Material Plastic { get; } =
        new()
        {
            Name = "sheet plastic",
            MinSpeedMPerMin = 200,
            MaxSpeedMPerMin = 400,
            ChipLoads = [new(3, 0.05, 0.1), new(6, 0.1, 0.2)],
            SpecificForceMin = 80,
            SpecificForceMax = 200,
            StepDownRatio = 0.5,
            StepOverRatio = 0.4,
            MaxRampDeg = 10,
            ExpansionPerK = 8e-5,
            ShellFriction = 0.2,
            IsPlastic = true,
            Source = "test",
        };

    public static Tool Cutter(double diameter) =>
        new()
        {
            Name = "single flute",
            Number = 1,
            Kind = ToolKind.EndMill,
            Diameter = diameter,
            Flutes = 1,
            FluteLength = 12,
            ShankDiameter = diameter,
            StickOut = 25,
            HolderDiameter = 25,
            TipAngleDeg = 0,
            TipDiameter = 0,
            Helix = HelixDirection.Straight,
            HelixAngleDeg = 25,
            CentreCutting = true,
            MaxStepDown = diameter,
            MaxRampDeg = 10,
            RunOut = 0.01,
            MaxRpm = 18000,
        };
}

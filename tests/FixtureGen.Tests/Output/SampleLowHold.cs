using FixtureGen.Model;
using FixtureGen.Output.Papers;
using FixtureGen.Toolpaths;

namespace FixtureGen.Tests.Output;

/// <summary>The made-up fixture with pins in the scrap, stops, and a hold below the house limit that its job accepts.</summary>
internal static class SampleLowHold
{
    public const string Reason =
        "first trial of the new mould, two parts, doors shut and nobody in front of the machine";

    private static readonly Point2[] Pins = [new(24, 108), new(192, 112)];

    public static PaperFacts Create(string paper, LengthUnit unit)
    {
        PaperFacts facts = SampleFacts.Create(paper);
        Material shell = facts.Job.ShellMaterial with
        {
            Sheet = new SheetStrength(53, Interval.Between(950, 2200), 0.38, Interval.Between(0.003, 0.005)),
        };
        Job job = facts.Job with
        {
            DisplayUnit = unit,
            Locator = LocatorKind.Pins,
            LocatorPins = [.. Pins],
            AcceptLowHold = Reason,
            ShellMaterial = shell,
            Limits = new HouseLimits(5.5, 1.2, 2),
        };
        FixtureDesign design = facts.Design with { Features = facts.Design.Features.AddRange(Pins.Select(Hole)) };
        HoldingResult holding = Held(facts.Holding);
        return facts with
        {
            Job = job,
            Design = design,
            Holding = holding,
            Plans = LowHold.Marked(facts.Plans, holding, job),
        };
    }

    private static HoldingResult Held(HoldingResult h) =>
        h with
        {
            VacuumOnly = Ranged(h.VacuumOnly),
            MagnetsOnly = Ranged(h.MagnetsOnly),
            MagnetsStopping = Ranged(h.MagnetsStopping) with { Stays = 1.13, StaysMode = HoldMode.Stop },
            Both = Ranged(h.Both),
            Stops =
            [
                new ShellStop(StopKind.Pin, "locator pin 1", Pins[0], default, 0.1, 201.6),
                new ShellStop(StopKind.Slot, "locator pin 2", Pins[1], new Point2(0, 1), 0.1, 201.6),
                new ShellStop(StopKind.Tab, "outline tab 1", new Point2(60, 52), default, 0, 48.9),
                new ShellStop(StopKind.Tab, "outline tab 2", new Point2(150, 164), default, 0, 48.9),
            ],
            ShiftMm = 0.21,
            Dimples = [new Dimple("magnet pocket M2", 10.2, 0.012, 0.2, 1.9), new Dimple("net", 3, 0.001, 2, 0.2)],
            JacketGrip = 3.47,
        };

    private static HoldAnswer Ranged(HoldAnswer a) =>
        a with
        {
            Nominal = 1.9 * a.Factor,
            Stays = 2.6 * a.Factor,
            Corner = "least friction, hardest cord, thickest shell, lowest alarm level",
        };

    private static HoleFeature Hole(Point2 at, int i) =>
        new()
        {
            Name = FormattableString.Invariant($"locator pin {i + 1}"),
            Kind = FeatureKind.LocatorHole,
            Setup = Setup.Top,
            At = at,
            Diameter = 5,
            TopZ = 18.5,
            FloorZ = 10.5,
            SlotLength = 0,
            SlotAngleDeg = 0,
            BreaksThrough = false,
            Opening = null,
            Removals =
            [
                new Removal(Setup.Top, FeatureKind.LocatorHole, "locator pin", [Shapes.Disc(at, 2.5)], 18.5, 10.5),
            ],
        };
}

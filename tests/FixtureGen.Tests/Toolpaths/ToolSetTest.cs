using System.Collections.Immutable;
using FixtureGen.Cutting;
using FixtureGen.Model;
using FixtureGen.Toolpaths.Methods;
using FixtureGen.Toolpaths.Routes;
using Xunit;

namespace FixtureGen.Tests.Toolpaths;

public sealed class ToolSetTest
{
    private static readonly CutData Data = new(10_000, 1000, 300, 1, 1, 0.05, 3, "");

    /// <summary>Against every choice of a method for each feature, its minutes and a change for each tool it takes added up.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(0.2)]
    [InlineData(2)]
    public void No_other_choice_of_methods_takes_less(double changeMinutes)
    {
        Random random = new(20261126);
        for (int trial = 0; trial < 200; trial++)
        {
            Tool[] rack = [.. Enumerable.Range(1, 6).Select(EndMill)];
            ImmutableArray<Method>[] features = [.. Enumerable.Range(0, 5).Select(_ => Ways(random, rack))];
            double least = Choices(features).Min(c => Minutes(c, changeMinutes));
            Assert.Equal(least, Minutes(ToolSet.Choose(features, changeMinutes), changeMinutes), 1e-6);
        }
    }

    private static double Minutes(IEnumerable<Method> choice, double changeMinutes) =>
        choice.Sum(m => m.Minutes)
        + (changeMinutes * choice.SelectMany(m => m.Cuttings).Select(c => c.Tool).Distinct().Count());

    private static IEnumerable<ImmutableArray<Method>> Choices(ImmutableArray<Method>[] features) =>
        features.Aggregate<ImmutableArray<Method>, IEnumerable<ImmutableArray<Method>>>(
            [
                [],
            ],
            (all, ways) => all.SelectMany(choice => ways.Select(choice.Add))
        );

    private static ImmutableArray<Method> Ways(Random random, Tool[] rack)
    {
        Feature hole = new HoleFeature
        {
            Name = "",
            Kind = FeatureKind.Port,
            Setup = Setup.Top,
            At = default,
            Diameter = 6,
            TopZ = 0,
            FloorZ = 0,
            SlotLength = 0,
            SlotAngleDeg = 0,
            BreaksThrough = false,
            Opening = null,
            Removals = [],
        };
        return
        [
            .. Enumerable
                .Range(0, random.Next(1, 5))
                .Select(_ => new Method(
                    hole,
                    [.. Enumerable.Range(0, random.Next(1, 3)).Select(_ => Cut(random, rack))]
                )),
        ];
    }

    private static ToolCut Cut(Random random, Tool[] rack) =>
        new(rack[random.Next(rack.Length)], OperationKind.Clear, Data, 3 * random.NextDouble(), () => []);

    private static Tool EndMill(int number) =>
        new()
        {
            Name = "",
            Number = number,
            Kind = ToolKind.EndMill,
            Diameter = number,
            Flutes = 2,
            FluteLength = 20,
            ShankDiameter = 6,
            StickOut = 30,
            HolderDiameter = 40,
            TipAngleDeg = 0,
            TipDiameter = 0,
            Helix = HelixDirection.Up,
            HelixAngleDeg = 30,
            CentreCutting = true,
            MaxStepDown = 1,
            MaxRampDeg = 3,
            RunOut = 0,
            MaxRpm = 24_000,
        };
}

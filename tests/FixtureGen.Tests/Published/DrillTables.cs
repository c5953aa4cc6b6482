using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Shop.Files;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Published;

/// <summary>
/// Sizes in which drills are made: fractions of an inch by 64ths and numbers and letters (ASME B94.11M, as tabled in handbooks; the rows
/// here are those between 1/16 and 1/4 in, from memory but for 7 and C to D), millimetres by 0.05 below 3 and by 0.1 from there (ISO 235, BS 328).
/// </summary>
public sealed class DrillTables
{
    private static readonly ImmutableArray<double> NumbersIn =
    [
        0.0670,
        0.0700,
        0.0730,
        0.0760,
        0.0785,
        0.0810,
        0.0820,
        0.0860,
        0.0890,
        0.0935,
        0.0960,
        0.0980,
        0.0995,
        0.1015,
        0.1040,
        0.1065,
        0.1100,
        0.1110,
        0.1130,
        0.1160,
        0.1200,
        0.1285,
        0.1360,
        0.1405,
        0.1440,
        0.1470,
        0.1495,
        0.1520,
        0.1540,
        0.1570,
        0.1590,
        0.1610,
        0.1660,
        0.1695,
        0.1730,
        0.1770,
        0.1800,
        0.1820,
        0.1850,
        0.1890,
        0.1910,
        0.1935,
        0.1960,
        0.1990,
        0.2010,
        0.2040,
        0.2055,
        0.2090,
        0.2130,
        0.2210,
        0.2280,
        0.2340,
        0.2380,
        0.2420,
        0.2460,
    ];

    [Fact]
    public void Every_drill_of_the_rack_is_one_that_is_made()
    {
        (string path, string text) = DemoShop.Files.Find("tools", "rack")!.Value;
        ToolRack rack = ToolReader.Read(text, path, "rack").Value!;
        Tool[] drills = [.. rack.Tools.Where(t => t.Kind == ToolKind.Drill)];
        Assert.Contains(drills, d => d.Diameter < 3.2);
        Assert.All(drills, d => Assert.True(Whole(d.Diameter / 25.4 * 64) || Whole(d.Diameter * 10), d.Name));
    }

    /// <summary>What the tenth of a millimetre means: whatever hole of 1.7 to 6.2 mm is drawn, a drill that is made is near enough, in either system.</summary>
    [Fact]
    public void A_tenth_of_a_millimetre_is_never_beyond_the_next_drill()
    {
        double[] inches =
        [
            .. NumbersIn.Concat(Enumerable.Range(4, 13).Select(k => k / 64.0)).Order().Select(i => i * 25.4),
        ];
        double[] metric =
        [
            .. Enumerable.Range(34, 26).Select(k => k * 0.05),
            .. Enumerable.Range(30, 33).Select(k => k * 0.1),
        ];
        for (double hole = 1.72; hole < 6.2; hole += 0.01)
        {
            Assert.True(metric.Min(d => Math.Abs(d - hole)) <= 0.05 + 1e-9);
            Assert.True(inches.Min(d => Math.Abs(d - hole)) <= 0.1, FormattableString.Invariant($"{hole}"));
        }
    }

    private static bool Whole(double x) => Math.Abs(x - Math.Round(x)) < 1e-6;
}

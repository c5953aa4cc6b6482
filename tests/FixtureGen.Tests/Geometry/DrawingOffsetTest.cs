using FixtureGen.Drawing;
using FixtureGen.Drawing.Chaining;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Geometry;

/// <summary>Loops that other programs drew, offset both ways, against the definition and the polygon library.</summary>
[Trait("Speed", "Slow")]
public sealed class DrawingOffsetTest
{
    // Larger loops are left to the polygon library: the definition asks every edge about every probe.
    private const int MostForDefinition = 300;
    private const int MostLoops = 25;

    [Theory]
    [MemberData(nameof(Drawings.Names), MemberType = typeof(Drawings), DisableDiscoveryEnumeration = true)]
    public void Every_clean_loop_is_offset_rightly(string name)
    {
        string folder = Drawings.Need();
        byte[] bytes = File.ReadAllBytes(Path.Combine(folder, "files", name));
        DrawingContent? drawing = DxfReader.Read(bytes, name, null, Tolerances.House).Value;
        foreach (DrawnLoop loop in (drawing?.Loops ?? []).Where(l => l.Clean).Take(MostLoops))
        {
            Check(Region.From(Enlarged(loop)));
        }
    }

    private static void Check(Region region)
    {
        Box2 box = Measure.Bounds(region);
        double size = Math.Min(box.Width, box.Height);
        foreach (double part in (double[])[0.05, -0.05, 0.22, -0.22])
        {
            double d = part * size;
            var kernel = new Kernel(Tolerances.House);
            var result = kernel.Offset(region, d);
            if (region.Outer.Segments.Length <= MostForDefinition)
            {
                Assert.Null(OffsetOracle.ByDefinition([region], d, result, OffsetOracle.Slack));
            }
            (double difference, double allowed) = OffsetOracle.ByBuffer([region], d, result);
            Assert.True(difference <= allowed, FormattableString.Invariant($"area off by {difference} of {allowed}"));
            Assert.DoesNotContain(kernel.Repairs, r => r.Kind == RepairKind.FallBack);
        }
    }

    /// <summary>A drawing in inches or metres of a small thing is made large enough for millimetre tolerances.</summary>
    private static Contour Enlarged(DrawnLoop loop)
    {
        double size = Math.Max(loop.Bounds.Width, loop.Bounds.Height);
        return size >= 50 ? loop.Contour : RandomLoops.Scaled(loop.Contour, 100 / size, default);
    }
}

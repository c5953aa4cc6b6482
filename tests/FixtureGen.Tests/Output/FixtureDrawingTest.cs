using System.Text.Json;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Output.Pictures;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Output;

public sealed class FixtureDrawingTest
{
    private static readonly Job Job = SampleJob.Create();
    private static readonly FixtureDesign Design = SampleDesign.Create(Job);

    /// <summary>The independent reader is python3-ezdxf: its audit, and areas by its own bulge arithmetic.</summary>
    [Fact]
    [Trait("Speed", "Slow")]
    public void Another_reader_finds_no_fault_and_our_areas_on_the_named_layers()
    {
        byte[] dxf = FixtureDrawing.Dxf(Design, Job);
        Looked.At("fixture.dxf", dxf);
        JsonElement read = Ezdxf.Read(dxf);
        Assert.Empty(read.GetProperty("errors").EnumerateArray());
        Assert.Empty(read.GetProperty("fixes").EnumerateArray());
        Assert.Equal("AC1015", read.GetProperty("version").GetString());
        Assert.Equal(4, read.GetProperty("units").GetInt32());
        Assert.Equal(Measure.Area(Design.Part.Outer), Areas(read, "PART_OUTLINE").Single(), 1e-6);
        Assert.Equal(Design.Part.Cutouts.Sum(c => -Measure.Area(c)), Areas(read, "PART_CUTOUT").Sum(), 1e-6);
        foreach (
            FeatureKind kind in Design.Features.Where(f => f is not EngravingFeature).Select(f => f.Kind).Distinct()
        )
        {
            double ours = Design
                .Removals.Where(r => r.Kind == kind)
                .SelectMany(r => r.Area)
                .SelectMany(r => r.Contours)
                .Sum(c => Math.Abs(Measure.Area(c)));
            Assert.Equal(ours, Areas(read, FixtureDrawing.Layer(kind)).Sum(), 1e-6);
        }
    }

    [Fact]
    public void Every_feature_kind_has_a_layer_of_its_own()
    {
        string[] layers = [.. Enum.GetValues<FeatureKind>().Select(FixtureDrawing.Layer)];
        Assert.Equal(layers.Length, layers.Distinct().Count());
    }

    [Fact]
    public void Round_holes_are_circles_and_the_bytes_repeat()
    {
        byte[] dxf = FixtureDrawing.Dxf(Design, Job);
        Assert.Equal(dxf, FixtureDrawing.Dxf(Design, Job));
        string text = System.Text.Encoding.ASCII.GetString(dxf);
        int holes = Design.Features.OfType<HoleFeature>().Count();
        Assert.True(text.Split("\nCIRCLE").Length - 1 > holes + Design.Magnets.Length);
    }

    private static IEnumerable<double> Areas(JsonElement read, string layer) =>
        read.GetProperty("areas")
            .EnumerateArray()
            .Zip(read.GetProperty("areaLayers").EnumerateArray())
            .Where(p => p.Second.GetString() == layer)
            .Select(p => p.First.GetDouble());
}

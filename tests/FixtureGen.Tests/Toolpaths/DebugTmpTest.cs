using FixtureGen.Dxf;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Toolpaths;

public sealed class DebugTmpTest(ITestOutputHelper output)
{
    [Theory]
    [InlineData("auger-cradle")]
    [InlineData("plumb-pouch")]
    public void Look(string name)
    {
        string folder = Path.Combine(DemoShop.Root, "outlines");
        Job job = DemoShop.Job(File.ReadAllText(Path.Combine(folder, name + ".toml")), name) with { ProgramNumber = 1200 };
        Drawing drawing = DxfReader.Read(File.ReadAllBytes(Path.Combine(folder, name + ".dxf")), name + ".dxf", job.DrawingUnit, Tolerances.House).Value!;
        FixtureDesign design = DesignedBlock.Of(PartBuilder.Build(drawing, job).Value!, job);
        foreach (EngravingFeature e in design.Features.OfType<EngravingFeature>())
        {
            output.WriteLine(FormattableString.Invariant($"{e.Name} {e.Text} {e.Width} {e.Depth} {e.TopZ} removals {e.Removals.Length} areas {e.Removals[0].Area.Length}"));
            int i = 0;
            foreach (OpenPath s in e.Strokes)
            {
                foreach (Segment g in s.Segments)
                {
                    Point2 p = Measure.PointAt(g, 0.5);
                    bool inside = e.Removals.Any(r => Inside.Contains(r.Area, p));
                    if (!inside)
                    {
                        output.WriteLine(FormattableString.Invariant($"  stroke {i} segment {g} outside; nearest {e.Removals[0].Area.Min(a => Measure.Distance(p, a)):0.000}"));
                    }
                }
                i++;
            }
        }
        foreach (GrooveFeature g in design.Features.OfType<GrooveFeature>())
        {
            int bad = 0;
            foreach (Segment s in g.Loops.SelectMany(l => l.Segments).Concat(g.Runs.SelectMany(r => r.Segments)))
            {
                Point2 p = Measure.PointAt(s, 0.5);
                bad += g.Removals.Any(r => Inside.Contains(r.Area, p)) ? 0 : 1;
            }
            output.WriteLine(FormattableString.Invariant($"{g.Name} width {g.Width} segments {g.Loops.Sum(l => l.Segments.Length)} bad {bad} area {g.Removals.Sum(r => Measure.Area(r.Area)):0.0} length*width {g.Width * (g.Loops.Sum(l => Measure.Length(l)) + g.Runs.Sum(r => Measure.Length(r))):0.0}"));
        }
        Assert.Fail("look");
    }
}

using FixtureGen.Drawing;
using FixtureGen.Drawing.Chaining;
using FixtureGen.Drawing.Roles;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Shop;

public sealed class OutlinesTest
{
    public static TheoryData<string> Jobs() =>
        [
            .. Directory
                .EnumerateFiles(Path.Combine(DemoShop.Root, "outlines"), "*.toml")
                .Select(p => Path.GetFileNameWithoutExtension(p))
                .Where(n => n != "library")
                .Order(StringComparer.Ordinal),
        ];

    [Fact]
    public void There_are_ten_or_more_demo_jobs() => Assert.True(Jobs().Count >= 10);

    [Theory]
    [MemberData(nameof(Jobs))]
    public void Every_demo_job_and_its_drawing_are_read_without_an_error(string name)
    {
        string folder = Path.Combine(DemoShop.Root, "outlines");
        Job job = DemoShop.Job(File.ReadAllText(Path.Combine(folder, name + ".toml")), name);
        byte[] bytes = File.ReadAllBytes(Path.Combine(folder, name + ".dxf"));
        Stage<DrawingContent> drawing = DxfReader.Read(bytes, name + ".dxf", job.DrawingUnit, Tolerances.House);
        Assert.True(drawing.Ok, string.Join('\n', drawing.Findings));
        Stage<Part> part = PartBuilder.Build(drawing.Value!, job);

        Assert.True(part.Ok, string.Join('\n', part.Findings));
        Assert.Empty(part.Findings);
        // the smallest is 54 x 32 mm; one whose inches were read as millimetres would be smaller still
        Assert.True(Measure.Area(part.Value!.Outer) > 1200);
    }

    [Fact]
    public void No_two_demo_jobs_share_a_number_or_a_fixture()
    {
        Job[] jobs = [.. Jobs().Select(row => Read(row.Data))];

        Assert.Equal(jobs.Length, jobs.Select(j => j.ProgramNumber).Distinct().Count());
        Assert.Equal(jobs.Length, jobs.Select(j => j.FixtureId).Distinct().Count());
        Assert.True(jobs.Select(j => j.Control.Name).Distinct().Count() >= 5);
    }

    private static Job Read(string name) =>
        DemoShop.Job(File.ReadAllText(Path.Combine(DemoShop.Root, "outlines", name + ".toml")), name);
}

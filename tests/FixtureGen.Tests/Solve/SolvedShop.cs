using FixtureGen.Drawing;
using FixtureGen.Drawing.Roles;
using FixtureGen.Model;
using FixtureGen.Shop.Jobs;
using FixtureGen.Shop.Reading;
using FixtureGen.Solve.Search;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Solve;

/// <summary>Jobs solved under the repository's own shop or a part of it.</summary>
internal static class SolvedShop
{
    /// <summary>The shop without the named files, as "gaskets/sponge-1-8".</summary>
    public static ShopFiles Without(params string[] gone) =>
        new ShopFiles(
            (kind, name) => gone.Contains($"{kind}/{name}") ? null : DemoShop.Files.Find(kind, name),
            kind => DemoShop.Files.List(kind).Where(n => !gone.Contains($"{kind}/{n}"))
        ).Remembered();

    /// <summary>The shop with only the named blanks and cords.</summary>
    public static ShopFiles Only(string[] blanks, string[] cords) =>
        Without([
            .. DemoShop.Files.List("blanks").Where(b => !blanks.Contains(b)).Select(b => $"blanks/{b}"),
            .. DemoShop.Files.List("gaskets").Where(g => !cords.Contains(g)).Select(g => $"gaskets/{g}"),
        ]);

    /// <summary>A demo drawing under a job text.</summary>
    public static Stage<Solved> Solve(string drawing, string text, ShopFiles shop, Func<Tool, bool>? rack = null)
    {
        Stage<Job> Read(ShopNames names)
        {
            Stage<Job> read = JobReader.Read(text, $"outlines/{drawing}.toml", shop, names);
            return read.Value is { } job && rack is not null
                ? read with
                {
                    Value = job with { Tools = [.. job.Tools.Where(rack)] },
                }
                : read;
        }
        Job first = DemoDesign.Good(Read(ShopNames.First));
        byte[] bytes = File.ReadAllBytes(Path.Combine(DemoShop.Root, "outlines", drawing + ".dxf"));
        Part part = DemoDesign.Good(
            PartBuilder.Build(
                DemoDesign.Good(DxfReader.Read(bytes, drawing + ".dxf", first.DrawingUnit, Tolerances.House)),
                first
            )
        );
        return JobSolver.Solve(part, first, Read, Tolerances.House, costs: false);
    }

    /// <summary>A job for the label clip with nothing stated but what a shop must, and what is added under [shop] and after it.</summary>
    public static string Clip(string shop = "", string more = "") =>
        $"""
            units = "mm"
            quantity = 40
            program = 1090
            [shop]
            plate = "master"
            shell = "petg"
            tools = "rack"
            bolt = "screw-1-4-20"
            pin = "pin-1-4"
            control = "inch-centre-arcs"
            {shop}
            [shell]
            thickness = 1.0
            thickness_min = 0.9
            thickness_max = 1.1
            slack_max = 0.3
            [locator]
            by = "auto"
            {more}
            """;

    public static SolveOption Chosen(Stage<Solved> solved)
    {
        Assert.True(solved.Ok, string.Join('\n', solved.Findings));
        Assert.True(solved.Value!.Report.Meets, string.Join('\n', solved.Findings));
        return solved.Value.Report.Chosen;
    }
}

using System.Globalization;
using System.Net;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using FixtureGen.App.Tests.Support;
using Xunit;

namespace FixtureGen.App.Tests.Page;

/// <summary>What the page asks beyond a try: where a magnet may stand, the part in another place, layouts that were kept.</summary>
public sealed partial class LayoutMovesTest
{
    private const string Job = "pruner-sheath";

    [Fact]
    public async Task A_magnet_snaps_to_the_nearest_place_of_its_ground()
    {
        await using PageServer page = await PageServer.StartAsync(Job, static _ => { });
        JsonObject layout = await page.OwnLayoutAsync();
        foreach ((double dx, double dy) in new[] { (14.0, 0.0), (-30, 9), (0, -25), (60, 60) })
        {
            JsonObject moved = layout.DeepClone().AsObject();
            JsonObject magnet = moved["magnets"]![0]!.AsObject();
            (double x, double y) = ((double)magnet["x"]! + dx, (double)magnet["y"]! + dy);
            (magnet["x"], magnet["y"], magnet["locked"]) = (x, y, false);
            moved["which"] = new JsonArray(0);
            JsonNode ground = (await page.AskAsync("ground", moved.ToJsonString())).Answer;
            (double X, double Y)[] cells = [.. Cells((string)ground["path"]!)];
            Assert.NotEmpty(cells);
            (HttpStatusCode status, JsonNode snapped) = await page.AskAsync("snap", moved.ToJsonString());
            Assert.Equal(HttpStatusCode.OK, status);
            JsonNode to = snapped["magnets"]![0]!;
            double way = Math.Sqrt(Math.Pow((double)to["x"]! - x, 2) + Math.Pow((double)to["y"]! - y, 2));
            double nearest = cells.Min(c => Math.Sqrt(Math.Pow(c.X - x, 2) + Math.Pow(c.Y - y, 2)));
            Assert.True(way <= nearest + 0.6, FormattableString.Invariant($"{way} mm, a cell lies {nearest} mm off"));
            moved.Remove("which");
            moved["magnets"] = snapped["magnets"]!.DeepClone();
            JsonNode tried = (await page.AskAsync("try", moved.ToJsonString())).Answer;
            Assert.Empty(tried["violations"]!.AsArray());
        }
    }

    [Fact]
    public async Task The_part_elsewhere_is_tried_as_check_has_it_once_saved()
    {
        await using PageServer page = await PageServer.StartAsync(Job, static _ => { });
        JsonObject layout = await page.OwnLayoutAsync();
        JsonNode state = (await page.AskAsync("state", null)).Answer;
        double x = (double)state["placed"]!["x"]! - 3;
        double y = (double)state["placed"]!["y"]! - 2;
        foreach (JsonNode? m in layout["magnets"]!.AsArray())
        {
            (m!["x"], m["y"]) = ((double)m["x"]! - 3, (double)m["y"]! - 2);
        }
        layout["placement"] = new JsonObject
        {
            ["x"] = x,
            ["y"] = y,
            ["angleDeg"] = 0,
        };
        JsonNode tried = (await page.AskAsync("try", layout.ToJsonString())).Answer;
        Assert.Equal(x, (double)tried["placed"]!["x"]!, 3);
        layout["hash"] = (string)state["hash"]!;
        layout["anyway"] = false;
        (HttpStatusCode status, JsonNode answer) = await page.AskAsync("save", layout.ToJsonString());
        Assert.True(status == HttpStatusCode.OK, answer.ToJsonString());
        Assert.Contains("[placement]\nat = [", File.ReadAllText(page.Library.Job(Job)), StringComparison.Ordinal);
        JsonNode check = Cli.Run(page.Library.Folder, "check", page.Library.Job(Job), "--json").Json;
        foreach (string key in new[] { "vacuumOnly", "magnetsStopping", "both" })
        {
            Assert.Equal((double)check["holding"]![key]!["factor"]!, (double)tried["factors"]![key]!["factor"]!, 4);
        }
        JsonNode kept = (await page.AskAsync("kept", null)).Answer["layouts"]!.AsArray().Single()!;
        Assert.Equal(("", x), ((string)kept["name"]!, (double)kept["placement"]!["x"]!));
        layout["placement"]!["x"] = x + 400;
        layout.Remove("hash");
        layout.Remove("anyway");
        (status, answer) = await page.AskAsync("try", layout.ToJsonString());
        Assert.Equal(HttpStatusCode.UnprocessableEntity, status);
        Assert.NotEmpty(answer["findings"]!.AsArray());
    }

    [Fact]
    public async Task Layouts_are_kept_by_name_beside_the_job_and_a_spoilt_file_is_never_written_over()
    {
        await using PageServer page = await PageServer.StartAsync("label-clip", static _ => { });
        JsonObject layout = await page.OwnLayoutAsync();
        (layout["name"], layout["factors"]) = ("four", "vacuum 2.6");
        Assert.Equal(HttpStatusCode.OK, (await page.AskAsync("keep", layout.ToJsonString())).Status);
        layout["factors"] = "vacuum 2.7";
        Assert.Equal(HttpStatusCode.OK, (await page.AskAsync("keep", layout.ToJsonString())).Status);
        JsonNode kept = Assert.Single((await page.AskAsync("kept", null)).Answer["layouts"]!.AsArray())!;
        Assert.Equal("vacuum 2.7", (string)kept["factors"]!);
        Assert.Equal(layout["magnets"]!.ToJsonString(), kept["magnets"]!.ToJsonString());
        foreach (string name in new[] { "", " ", "a\nb", new string('a', 81) })
        {
            layout["name"] = name;
            Assert.Equal(HttpStatusCode.BadRequest, (await page.AskAsync("keep", layout.ToJsonString())).Status);
        }
        string file = Path.Combine(page.Library.Jobs, "label-clip.layouts.json");
        Assert.Equal(HttpStatusCode.BadRequest, (await page.AskAsync("forget", """{"number":1}""")).Status);
        Assert.Equal(HttpStatusCode.OK, (await page.AskAsync("forget", """{"number":0}""")).Status);
        File.WriteAllText(file, "{ spoilt");
        layout["name"] = "again";
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await page.AskAsync("keep", layout.ToJsonString())).Status);
        Assert.Equal("{ spoilt", File.ReadAllText(file));
        Assert.False(File.Exists(page.Log));
    }

    private static IEnumerable<(double X, double Y)> Cells(string path)
    {
        foreach (Match m in Run().Matches(path))
        {
            double[] n = [.. m.Groups.Values.Skip(1).Select(g => double.Parse(g.Value, CultureInfo.InvariantCulture))];
            for (double x = 0; x < n[2]; x += n[3])
            {
                yield return (n[0] + x + (n[3] / 2), n[1] + (n[3] / 2));
            }
        }
    }

    [GeneratedRegex(@"M([-\d.]+) ([-\d.]+)h([\d.]+)v([\d.]+)")]
    private static partial Regex Run();
}

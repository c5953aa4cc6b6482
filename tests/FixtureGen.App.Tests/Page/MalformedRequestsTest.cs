using System.Net;
using System.Text.Json.Nodes;
using FixtureGen.App.Tests.Support;
using Xunit;

namespace FixtureGen.App.Tests.Page;

/// <summary>A request whose text is wrong is 400 with a finding that names the member; nothing of it is logged as a fault.</summary>
public sealed class MalformedRequestsTest
{
    private sealed record Malformed(string Call, Action<JsonObject> Spoil, string Member);

    private static readonly Dictionary<string, Malformed> Cases = new(StringComparer.Ordinal)
    {
        ["no magnets"] = new("try", b => b.Remove("magnets"), "magnets"),
        ["no ports"] = new("try", b => b.Remove("ports"), "ports"),
        ["no settings"] = new("best", b => b.Remove("settings"), "settings"),
        ["no line"] = new("section", _ => { }, "line"),
        ["no hash"] = new("save", b => b["anyway"] = true, "hash"),
        ["no anyway"] = new("save", b => b["hash"] = "", "anyway"),
        ["magnets null"] = new("try", b => b["magnets"] = null, "magnets"),
        ["settings null"] = new("fewest", b => b["settings"] = null, "settings"),
        ["hash null"] = new("save", b => (b["hash"], b["anyway"]) = (null, true), "hash"),
        ["magnets an object"] = new("try", b => b["magnets"] = new JsonObject(), "magnets"),
        ["magnets a number"] = new("try", b => b["magnets"] = 3, "magnets"),
        ["a magnet null"] = new("try", b => Magnet(b, null), "magnets[0]"),
        ["a magnet a list"] = new("try", b => Magnet(b, new JsonArray(1, 2)), "magnets[0]"),
        ["a magnet without x"] = new("try", b => Magnet(b, Json("""{"y":1}""")), "x"),
        ["a magnet's y a word"] = new("try", b => Magnet(b, Json("""{"x":1,"y":"1"}""")), "magnets[0].y"),
        ["a magnet's lock a number"] = new(
            "try",
            b => Magnet(b, Json("""{"x":1,"y":1,"locked":1}""")),
            "magnets[0].locked"
        ),
        ["a magnet with more"] = new("try", b => Magnet(b, Json("""{"x":1,"y":1,"z":1}""")), "magnets[0].z"),
        ["a magnet beyond all numbers"] = new("try", b => Magnet(b, Json("""{"x":1e400,"y":1}""")), "magnets[0]"),
        ["a magnet far away"] = new("try", b => Magnet(b, Json("""{"x":5001,"y":1}""")), "magnets[0]"),
        ["a port far away"] = new("try", b => b["ports"] = new JsonArray(Json("""{"x":1,"y":-9999}""")), "ports[0]"),
        ["too many ports"] = new("try", b => b["ports"] = Many(21, """{"x":1,"y":1}"""), "ports"),
        ["too many magnets"] = new("try", b => b["magnets"] = Many(61, """{"x":1,"y":1}"""), "magnets"),
        ["too many curves"] = new("try", b => b["have"] = Many(2001, "\"a\""), "have"),
        ["a curve null"] = new("try", b => b["have"] = new JsonArray((JsonNode?)null), "have[0]"),
        ["a member that nobody knows"] = new("try", b => b["nonsense"] = 1, "nonsense"),
        ["a setting that nobody knows"] = new("try", b => b["settings"]!["nonsense"] = 1, "settings.nonsense"),
        ["a setting missing"] = new("try", b => b["settings"]!.AsObject().Remove("alarm"), "alarm"),
        ["a setting of another type"] = new("try", b => b["settings"]!["feed"] = "fast", "settings.feed"),
        ["text that would be TOML"] = new(
            "try",
            b => b["settings"]!["magnet"] = "x\"\n[shop]\nplate = \"y",
            "settings.magnet"
        ),
        ["a path for a magnet"] = new("try", b => b["settings"]!["magnet"] = "../plates/master", "settings.magnet"),
        ["a cutter not in the rack"] = new("try", b => b["settings"]!["cutter"] = "none", "settings.cutter"),
        ["a feed below none"] = new("try", b => b["settings"]!["feed"] = -1, "settings.feed"),
        ["an altitude beyond the air"] = new("try", b => b["settings"]!["altitude"] = 1e300, "settings.altitude"),
        ["half a magnet"] = new("best", b => b["settings"]!["count"] = 2.5, "settings.count"),
        ["a million magnets"] = new("best", b => b["settings"]!["count"] = 1_000_000, "settings.count"),
        ["a line far away"] = new("section", b => b["line"] = Json("""{"x0":1e300,"y0":0,"x1":0,"y1":0}"""), "line.x0"),
        ["a line of three ends"] = new("section", b => b["line"] = Json("""{"x0":0,"y0":0,"x1":0}"""), "y1"),
        ["make with a member"] = new("make", b => b["hash"] = "", "magnets"),
        ["make without a hash"] = new("make", b => b.Clear(), "hash"),
    };

    [Fact]
    public async Task Each_is_400_and_names_its_member()
    {
        Assert.True(Cases.Count >= 30);
        await using PageServer page = await PageServer.StartAsync("label-clip", static _ => { });
        foreach ((string name, Malformed m) in Cases)
        {
            JsonObject body = await page.OwnLayoutAsync();
            m.Spoil(body);
            (HttpStatusCode status, JsonNode answer) = await page.AskAsync(m.Call, body.ToJsonString());
            Assert.True(status == HttpStatusCode.BadRequest, $"{name}: {status} {answer}");
            JsonNode finding = Assert.Single(answer["findings"]!.AsArray())!;
            string said = $"{finding["where"]} {finding["message"]}";
            Assert.True(said.Contains(m.Member, StringComparison.Ordinal), $"{name}: {said}");
            Assert.DoesNotContain("FixtureGen", said, StringComparison.Ordinal);
            Assert.NotEqual("", (string)finding["remedy"]!);
        }
        Assert.False(File.Exists(page.Log));
    }

    [Theory]
    [InlineData("", "request")]
    [InlineData("null", "null")]
    [InlineData("[1", "JSON")]
    [InlineData("""{"magnets":[],"magnets":[]}""", "magnets")]
    public async Task Text_that_is_no_question_is_400(string body, string says)
    {
        await using PageServer page = await PageServer.StartAsync("label-clip", static _ => { });
        (HttpStatusCode status, JsonNode answer) = await page.AskAsync("try", body);
        Assert.Equal(HttpStatusCode.BadRequest, status);
        Assert.Contains(says, (string)answer["message"]!, StringComparison.Ordinal);
        (status, answer) = await page.AskAsync("block.png", null, query: "&for=" + Uri.EscapeDataString(body));
        Assert.Equal(HttpStatusCode.BadRequest, status);
        Assert.Contains(says, (string)answer["message"]!, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Another_type_of_body_another_way_and_another_name_are_told_so()
    {
        await using PageServer page = await PageServer.StartAsync("label-clip", static _ => { });
        string body = (await page.OwnLayoutAsync()).ToJsonString();
        Assert.Equal(HttpStatusCode.UnsupportedMediaType, (await page.AskAsync("try", body, "text/plain")).Status);
        Assert.Equal(HttpStatusCode.MethodNotAllowed, (await page.AskAsync("try", null)).Status);
        Assert.Equal(HttpStatusCode.MethodNotAllowed, (await page.AskAsync("state", body)).Status);
        Assert.Equal(HttpStatusCode.NotFound, (await page.AskAsync("no-such", body)).Status);
        Assert.Equal(HttpStatusCode.OK, (await page.AskAsync("try", body)).Status);
    }

    private static JsonNode Json(string text) => JsonNode.Parse(text)!;

    private static void Magnet(JsonObject body, JsonNode? magnet) => body["magnets"] = new JsonArray(magnet);

    private static JsonArray Many(int count, string one) => [.. Enumerable.Range(0, count).Select(_ => Json(one))];
}

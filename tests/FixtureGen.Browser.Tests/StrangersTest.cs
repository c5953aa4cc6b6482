using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using Xunit;

namespace FixtureGen.Browser.Tests;

/// <summary>What somebody who should not, or who knows the token and means harm, gets from the page's address.</summary>
public sealed class StrangersTest
{
    private const string Job = "label-clip";
    private static readonly HttpClient Client = new();

    [Fact]
    public async Task Hosts_origins_tokens_and_methods_that_are_not_the_pages_are_refused()
    {
        await using LayoutPage page = await LayoutPage.OpenAsync(Job);
        string token = new Uri(page.Address).Query;
        async Task<HttpStatusCode> Ask(HttpMethod method, string path, string? origin = null, string? host = null)
        {
            using HttpRequestMessage request = new(method, new Uri(new Uri(page.Address), path));
            request.Headers.Host = host;
            if (origin is not null)
            {
                request.Headers.Add("Origin", origin);
            }
            using HttpResponseMessage response = await Client.SendAsync(request, TestContext.Current.CancellationToken);
            return response.StatusCode;
        }
        int port = new Uri(page.Address).Port;
        string own = FormattableString.Invariant($"http://127.0.0.1:{port}");
        Assert.Equal(HttpStatusCode.OK, await Ask(HttpMethod.Get, "/api/state" + token, own));
        foreach (string origin in new[] { "null", own.Replace("http", "https"), "http://127.0.0.1", own + ".example" })
        {
            Assert.Equal(HttpStatusCode.Forbidden, await Ask(HttpMethod.Get, "/api/state" + token, origin));
        }
        foreach (string host in new[] { "127.0.0.1", "localhost", "example.com", "127.0.0.1.example:80" })
        {
            Assert.Equal(HttpStatusCode.Forbidden, await Ask(HttpMethod.Get, "/main.js", null, host));
        }
        foreach (
            string wrong in new[] { "", "?token=", token[..^1], token + "0", token + "&" + token[1..], "?token=%C3%A9" }
        )
        {
            Assert.Equal(HttpStatusCode.Forbidden, await Ask(HttpMethod.Get, "/api/state" + wrong));
        }
        foreach (string changes in new[] { "try", "best", "fewest", "section", "save", "make", "no-such" })
        {
            Assert.Equal(HttpStatusCode.MethodNotAllowed, await Ask(HttpMethod.Get, $"/api/{changes}{token}"));
        }
        Assert.Equal(HttpStatusCode.MethodNotAllowed, await Ask(HttpMethod.Post, "/api/state" + token));
    }

    [Theory]
    [InlineData("try", """{"magnets":[],"settings":{"friction":"0.2\n[shop]\nplate = \"x\""}}""")]
    [InlineData("try", """{"magnets":[],"settings":{"magnet":"../plates/master"}}""")]
    [InlineData("try", """{"magnets":[],"settings":{"feed":-1}}""")]
    [InlineData("try", """{"magnets":[],"settings":{"altitude":1e300}}""")]
    [InlineData("try", """{"magnets":[],"magnets":[],"settings":{}}""")]
    [InlineData("try", """{"magnets":[{"x":1e400,"y":0}],"settings":{}}""")]
    [InlineData("try", """{"magnets":{"x":1},"settings":[]}""")]
    [InlineData("try", "[1")]
    [InlineData("best", """{"magnets":[],"settings":{"count":1000000}}""")]
    [InlineData("section", """{"magnets":[],"settings":{},"line":{"x0":1e300,"y0":0,"x1":0,"y1":0}}""")]
    [InlineData("section", """{"magnets":[],"settings":{}}""")]
    public async Task A_question_that_the_page_could_not_ask_is_told_so_and_changes_nothing(string call, string body)
    {
        await using LayoutPage page = await LayoutPage.OpenAsync(Job);
        string before = page.Text();
        Assert.Equal(HttpStatusCode.BadRequest, (await PostAsync(page, call, body)).Status);
        JsonObject save = JsonNode.Parse("""{"magnets":[],"settings":{},"anyway":true,"hash":""}""")!.AsObject();
        Assert.Equal(HttpStatusCode.Conflict, (await PostAsync(page, "save", save.ToJsonString())).Status);
        Assert.Equal(before, page.Text());
        int answers = await page.AnswersAsync();
        await page.DoAsync(() => page.Page.FillAndLeaveAsync("#set-altitude", "300"));
        Assert.Equal(answers + 1, await page.AnswersAsync());
    }

    [Fact]
    public async Task Too_many_of_anything_is_refused()
    {
        await using LayoutPage page = await LayoutPage.OpenAsync(Job);
        string Many(int count, string one) => "[" + string.Join(',', Enumerable.Repeat(one, count)) + "]";
        const string Point = """{"x":1,"y":1}""";
        string magnets = Body(Many(61, Point), "[]", "[]");
        string ports = Body("[]", Many(21, Point), "[]");
        string have = Body("[]", "[]", Many(2001, "\"a\""));
        string deep = """{"magnets":""" + new string('[', 5000) + new string(']', 5000) + "}";
        foreach (string body in new[] { magnets, ports, have, deep })
        {
            Assert.Equal(HttpStatusCode.BadRequest, (await PostAsync(page, "try", body)).Status);
        }
        string large = new('x', 300_000);
        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, (await PostAsync(page, "try", large)).Status);
    }

    private static string Body(string magnets, string ports, string have) =>
        $"{{\"magnets\":{magnets},\"ports\":{ports},\"have\":{have},\"settings\":{{}}}}";

    private static async Task<(HttpStatusCode Status, string Body)> PostAsync(LayoutPage page, string call, string body)
    {
        Uri root = new(page.Address);
        using StringContent content = new(body, Encoding.UTF8, "application/json");
        using HttpResponseMessage response = await Client.PostAsync(
            new Uri(root, $"/api/{call}{root.Query}"),
            content,
            TestContext.Current.CancellationToken
        );
        return (response.StatusCode, await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));
    }
}

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
        foreach (string changes in new[] { "try", "best", "fewest", "section", "save", "make" })
        {
            Assert.Equal(HttpStatusCode.MethodNotAllowed, await Ask(HttpMethod.Get, $"/api/{changes}{token}"));
        }
        Assert.Equal(HttpStatusCode.MethodNotAllowed, await Ask(HttpMethod.Post, "/api/state" + token));
        Assert.Equal(HttpStatusCode.NotFound, await Ask(HttpMethod.Get, "/api/no-such" + token));
    }

    /// <summary>The page's own layout with one thing spoilt; what each refusal says is tested without a browser.</summary>
    [Theory]
    [InlineData("try", "magnets", """[{"x":1e400,"y":0}]""")]
    [InlineData("try", "settings.feed", "-1")]
    [InlineData("try", "settings.magnet", "\"x\\\"\\n[shop]\\nplate = \\\"y\"")]
    [InlineData("best", "settings.count", "1000000")]
    [InlineData("section", "line", """{"x0":1e300,"y0":0,"x1":0,"y1":0}""")]
    public async Task A_question_that_the_page_could_not_ask_is_refused_and_changes_nothing(
        string call,
        string member,
        string value
    )
    {
        await using LayoutPage page = await LayoutPage.OpenAsync(Job);
        string before = page.Text();
        JsonObject body = await OwnLayoutAsync(page);
        string[] path = member.Split('.');
        JsonObject holder = path.Length == 1 ? body : body[path[0]]!.AsObject();
        holder[path[^1]] = JsonNode.Parse(value);
        (HttpStatusCode status, string answer) = await PostAsync(page, call, body.ToJsonString());
        Assert.Equal(HttpStatusCode.BadRequest, status);
        Assert.Contains(path[^1], answer, StringComparison.Ordinal);
        JsonObject save = await OwnLayoutAsync(page);
        (save["hash"], save["anyway"]) = ("", true);
        Assert.Equal(HttpStatusCode.Conflict, (await PostAsync(page, "save", save.ToJsonString())).Status);
        Assert.Equal(before, page.Text());
        int answers = await page.AnswersAsync();
        await page.DoAsync(() => page.Page.FillAndLeaveAsync("#set-altitude", "300"));
        Assert.Equal(answers + 1, await page.AnswersAsync());
    }

    [Fact]
    public async Task Too_much_of_anything_is_refused()
    {
        await using LayoutPage page = await LayoutPage.OpenAsync(Job);
        string deep = """{"magnets":""" + new string('[', 5000) + new string(']', 5000) + "}";
        Assert.Equal(HttpStatusCode.BadRequest, (await PostAsync(page, "try", deep)).Status);
        string large = new('x', 300_000);
        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, (await PostAsync(page, "try", large)).Status);
    }

    /// <summary>What the page itself would send now.</summary>
    private static async Task<JsonObject> OwnLayoutAsync(LayoutPage page)
    {
        string body = await page.Page.EvaluateAsync<string>("import('./state.js').then(s => JSON.stringify(s.body()))");
        return JsonNode.Parse(body)!.AsObject();
    }

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

using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using FixtureGen.App.Files;
using FixtureGen.App.Page;
using FixtureGen.App.Page.Layout;
using Xunit;

namespace FixtureGen.App.Tests.Support;

/// <summary>The layout page's server on one job of a temporary library, within the tests' process.</summary>
internal sealed class PageServer : IAsyncDisposable
{
    private static readonly HttpClient Client = new();
    private readonly WorkPage _server;

    private PageServer(TempLibrary library, WorkPage server) => (Library, _server) = (library, server);

    public TempLibrary Library { get; }

    public string Log => Path.Combine(Library.Folder, "out", FaultLog.FileName);

    /// <summary>Before is called with the name of each question before it is answered.</summary>
    public static async Task<PageServer> StartAsync(string job, Action<string> before)
    {
        TempLibrary library = new(job);
        LayoutSession session = LayoutSession.Open(library.Job(job)).Value!;
        WorkFolder work = new(library.Jobs, job + ".toml");
        work.Keep(library.Job(job), session);
        WorkPage server = new(work, 0, new FaultLog([library.Job(job)]), before);
        await server.StartAsync();
        return new PageServer(library, server);
    }

    /// <summary>The address with its token.</summary>
    public Uri Address => new(_server.Address);

    /// <summary>Every question that the page answers, and whether it carries a body of JSON.</summary>
    public IReadOnlyList<(string Name, bool Json)> Questions => _server.Questions;

    /// <summary>What the page sends of the layout that the job has.</summary>
    public async Task<JsonObject> OwnLayoutAsync()
    {
        JsonNode state = (await AskAsync("state", null)).Answer;
        JsonObject settings = [];
        foreach (JsonNode? s in state["settings"]!.AsArray())
        {
            settings[(string)s!["key"]!] = (s["choice"] ?? s["figure"])!.DeepClone();
        }
        return new JsonObject
        {
            ["magnets"] = state["magnets"]!.DeepClone(),
            ["ports"] = state["ports"]!.DeepClone(),
            ["settings"] = settings,
        };
    }

    /// <summary>Asks; GET without a body.</summary>
    public async Task<(HttpStatusCode Status, JsonNode Answer)> AskAsync(
        string call,
        string? body,
        string type = "application/json",
        string query = ""
    )
    {
        Uri root = new(_server.Address);
        Uri address = new(root, $"/api/{call}{root.Query}{query}");
        using HttpRequestMessage request = new(body is null ? HttpMethod.Get : HttpMethod.Post, address);
        request.Content = body is null ? null : new StringContent(body, Encoding.UTF8, type);
        using HttpResponseMessage response = await Client.SendAsync(request, TestContext.Current.CancellationToken);
        string text = await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        return (response.StatusCode, JsonNode.Parse(text)!);
    }

    public async ValueTask DisposeAsync()
    {
        await _server.DisposeAsync();
        Library.Dispose();
    }
}

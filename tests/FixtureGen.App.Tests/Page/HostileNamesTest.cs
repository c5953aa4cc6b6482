using System.Net;
using System.Text.Json.Nodes;
using FixtureGen.App.Tests.Support;
using Xunit;

namespace FixtureGen.App.Tests.Page;

/// <summary>Names of jobs, files, plates and notes that no page sends: each is refused, and nothing is read or written outside what the page lists.</summary>
public sealed class HostileNamesTest
{
    private static readonly string[] Names =
    [
        "../../templates/plates/master.toml",
        "..",
        ".",
        "/etc/passwd",
        "C:\\Windows\\win.ini",
        "..\\..\\x.dxf",
        "label-clip.toml\0.dxf",
        "a/b.dxf",
        ".hidden.dxf",
        "x.toml",
        "x.dxf/",
        "CON",
        "x\n.dxf",
        "%2e%2e%2fx.dxf",
        "~/x.dxf",
        "$(touch x).dxf",
        "<script>.svg",
        "",
        new string('a', 300) + ".dxf",
    ];

    [Fact]
    public async Task Each_is_refused_and_the_library_stays_as_it_is()
    {
        await using PageServer page = await PageServer.StartAsync("label-clip", static _ => { });
        string before = Tree(page);
        foreach (string name in Names)
        {
            string quoted = Uri.EscapeDataString(name);
            foreach (string call in new[] { "state", "pulse", "form", "outputs", "outputs.zip" })
            {
                if (name.Length > 0)
                {
                    Assert.Equal(
                        HttpStatusCode.NotFound,
                        (await page.AskAsync(call, null, query: "&job=" + quoted)).Status
                    );
                }
            }
            Assert.Equal(
                HttpStatusCode.NotFound,
                (await page.AskAsync("output", null, query: "&name=" + quoted)).Status
            );
            foreach (string call in new[] { "drawing", "new" })
            {
                (HttpStatusCode status, JsonNode answer) = await page.AskAsync(
                    call,
                    "0\nEOF\n",
                    "application/octet-stream",
                    "&name=" + quoted
                );
                Assert.True(
                    status is HttpStatusCode.BadRequest or HttpStatusCode.UnprocessableEntity,
                    $"{call} {name}: {status}"
                );
                Assert.NotEmpty(answer["findings"]!.AsArray());
            }
            JsonObject note = new() { ["what"] = name };
            Assert.Equal(HttpStatusCode.BadRequest, (await page.AskAsync("note", note.ToJsonString())).Status);
            JsonObject run = new()
            {
                ["dryRun"] = true,
                ["force"] = false,
                ["plate"] = name + "x",
            };
            Assert.Equal(HttpStatusCode.BadRequest, (await page.AskAsync("regenerate", run.ToJsonString())).Status);
            JsonObject form = new()
            {
                ["hash"] = "",
                ["edits"] = new JsonArray(new JsonObject { ["path"] = name, ["value"] = "1" }),
            };
            Assert.Equal(
                HttpStatusCode.UnprocessableEntity,
                (await page.AskAsync("form-save", form.ToJsonString())).Status
            );
            form["edits"] = new JsonArray(new JsonObject { ["path"] = "title", ["value"] = "a\nb = 1" });
            Assert.Equal(
                HttpStatusCode.UnprocessableEntity,
                (await page.AskAsync("form-save", form.ToJsonString())).Status
            );
        }
        Assert.Equal(before, Tree(page));
        Assert.False(File.Exists(page.Log));
    }

    /// <summary>The search takes many times as long as a try and is asked first: it must not hold the try up.</summary>
    [Fact]
    public async Task A_try_is_answered_while_the_optimiser_searches()
    {
        TaskCompletionSource begun = new();
        await using PageServer page = await PageServer.StartAsync(
            "pruner-sheath",
            call =>
            {
                if (call == "best")
                {
                    begun.SetResult();
                }
            }
        );
        string layout = (await page.OwnLayoutAsync()).ToJsonString();
        Assert.Equal(HttpStatusCode.OK, (await page.AskAsync("try", layout)).Status);
        Task<(HttpStatusCode Status, JsonNode Answer)> best = page.AskAsync("best", layout);
        await begun.Task;
        await Task.Delay(50, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.OK, (await page.AskAsync("try", layout)).Status);
        Assert.False(best.IsCompleted);
        Assert.Equal(HttpStatusCode.OK, (await best).Status);
    }

    private static string Tree(PageServer page) =>
        string.Join(
            '\n',
            Directory
                .EnumerateFileSystemEntries(page.Library.Folder, "*", SearchOption.AllDirectories)
                .Order(StringComparer.Ordinal)
                .Select(f => File.Exists(f) ? $"{f} {new FileInfo(f).Length}" : f)
        );
}

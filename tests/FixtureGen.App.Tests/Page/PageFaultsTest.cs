using System.Net;
using System.Text.Json;
using System.Text.Json.Nodes;
using FixtureGen.App.Tests.Support;
using Xunit;

namespace FixtureGen.App.Tests.Page;

/// <summary>What breaks in the program while the page asks is told as ours, with an id that stands in the log; never as the caller's.</summary>
public sealed class PageFaultsTest
{
    private const string Job = "label-clip";

    /// <summary>Kinds that were once answered with 400, and one that was not.</summary>
    public static TheoryData<string> Kinds =>
        [
            nameof(NullReferenceException),
            nameof(FormatException),
            nameof(InvalidOperationException),
            nameof(KeyNotFoundException),
            nameof(JsonException),
            nameof(IndexOutOfRangeException),
        ];

    [Theory]
    [MemberData(nameof(Kinds))]
    public async Task A_fault_is_500_with_its_id_in_the_log(string kind)
    {
        await using PageServer page = await PageServer.StartAsync(
            Job,
            call => Break(call is "try" or "progress" ? kind : call)
        );
        JsonObject layout = Layout();
        foreach (string? body in new[] { layout.ToJsonString(), null })
        {
            (HttpStatusCode status, JsonNode answer) = await page.AskAsync(body is null ? "progress" : "try", body);
            Assert.Equal(HttpStatusCode.InternalServerError, status);
            string id = (string)answer["fault"]!;
            Assert.Matches("^F[0-9A-F]{8}$", id);
            string message = (string)answer["message"]!;
            Assert.Contains($"our own fault {id}: {kind}: ", message, StringComparison.Ordinal);
            Assert.Contains(page.Log, message, StringComparison.Ordinal);
            string log = await File.ReadAllTextAsync(page.Log, TestContext.Current.CancellationToken);
            string entry = Assert.Single(log.Split("== fault "), e => e.StartsWith(id, StringComparison.Ordinal));
            Assert.Contains(
                $"doing: page, {(body is null ? "GET /api/progress" : "POST /api/try")}",
                entry,
                StringComparison.Ordinal
            );
            Assert.Contains("   at FixtureGen.App.Page.Serving.PageHost", entry, StringComparison.Ordinal);
            Assert.DoesNotContain("token=", log, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task After_a_fault_the_next_question_is_answered()
    {
        int asked = 0;
        await using PageServer page = await PageServer.StartAsync(
            Job,
            call =>
            {
                if (call == "try" && asked++ == 0)
                {
                    Break(nameof(NullReferenceException));
                }
            }
        );
        string layout = (await page.OwnLayoutAsync()).ToJsonString();
        Assert.Equal(HttpStatusCode.InternalServerError, (await page.AskAsync("try", layout)).Status);
        Assert.Equal(HttpStatusCode.OK, (await page.AskAsync("try", layout)).Status);
    }

    private static void Break(string kind)
    {
        const string message = "broken for the test";
        string? nothing = kind.Length == 0 ? kind : null;
        _ = kind switch
        {
            nameof(NullReferenceException) => nothing!.Length,
            nameof(IndexOutOfRangeException) => kind[kind.Length],
            nameof(FormatException) => throw new FormatException(message),
            nameof(InvalidOperationException) => throw new InvalidOperationException(message),
            nameof(KeyNotFoundException) => throw new KeyNotFoundException(message),
            nameof(JsonException) => throw new JsonException(message),
            _ => throw new NotSupportedException(kind),
        };
    }

    private static JsonObject Layout() =>
        JsonNode
            .Parse(
                """{"magnets":[],"ports":[],"settings":{"magnet":"","count":0,"alarm":1,"altitude":1,"friction":1,"cutter":"","feed":0}}"""
            )!
            .AsObject();
}

using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using FixtureGen.App.Files;
using FixtureGen.Model;
using FixtureGen.Output.Reports;
using Microsoft.AspNetCore.Http;

namespace FixtureGen.App.Page.Serving;

/// <summary>What the page is answered: an HTTP status and a body.</summary>
internal sealed record PageAnswer(int Status, string ContentType, ReadOnlyMemory<byte> Body)
{
    private const string JsonType = "application/json; charset=utf-8";

    /// <summary>A JSON body, compact.</summary>
    public static PageAnswer Json<T>(int status, T value, JsonTypeInfo<T> type) =>
        new(status, JsonType, JsonSerializer.SerializeToUtf8Bytes(value, type));

    /// <summary>One line for the person.</summary>
    public static PageAnswer Say(int status, string message) => Say(status, new MessageAnswer(message));

    /// <summary>One line for the person and what goes with it.</summary>
    public static PageAnswer Say(int status, MessageAnswer message) =>
        Json(status, message, PageJson.Default.MessageAnswer);

    /// <summary>422: what was asked is understood and cannot be; the first error is the line.</summary>
    public static PageAnswer Refused(IReadOnlyCollection<Finding> findings) =>
        Refused(
            (findings.FirstOrDefault(f => f.Severity == Severity.Error) ?? findings.FirstOrDefault())?.Message
                ?? "refused",
            findings
        );

    /// <summary>422 with a line of its own.</summary>
    public static PageAnswer Refused(string message, IEnumerable<Finding> findings) =>
        Say(422, new MessageAnswer(message) { Findings = Lines(findings) });

    /// <summary>400: the request itself is wrong, at the member that each finding names.</summary>
    public static PageAnswer NotUnderstood(IReadOnlyCollection<Finding> findings)
    {
        Finding first = findings.First();
        return Say(400, new MessageAnswer($"{first.Where}: {first.Message}") { Findings = Lines(findings) });
    }

    /// <summary>500: we broke a promise; the id leads to the log.</summary>
    public static PageAnswer Broken(Fault fault) =>
        Say(500, new MessageAnswer($"{fault.Message}; {fault.Remedy}") { Fault = fault.Id });

    /// <summary>Findings as the page lists them.</summary>
    public static FindingLine[] Lines(IEnumerable<Finding> findings) => [.. findings.Select(FindingLine.From)];

    /// <summary>Writes status and body.</summary>
    public async Task SendAsync(HttpContext context)
    {
        context.Response.StatusCode = Status;
        context.Response.ContentType = ContentType;
        await context.Response.Body.WriteAsync(Body, context.RequestAborted).ConfigureAwait(false);
    }
}

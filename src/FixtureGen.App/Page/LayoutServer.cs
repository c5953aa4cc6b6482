using System.Globalization;
using System.Net;
using System.Reflection;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;

namespace FixtureGen.App.Page;

/// <summary>
/// The layout page's transport: loopback only, a token in the address, a foreign Host or Origin answered with 403, bodies
/// of at most 256 kB. It serves the page's own files from the program and hands every question to the session; it reads no
/// path from a request.
/// </summary>
public sealed class LayoutServer : IAsyncDisposable
{
    private const int MostBytes = 256 * 1024;

    /// <summary>Questions that change nothing and carry no body: GET; all others are POST.</summary>
    private static readonly string[] OnlyRead = ["state", "progress", "block.png"];

    internal static readonly JsonDocumentOptions Once = new() { AllowDuplicateProperties = false };

    private readonly WebApplication _app;
    private readonly string _token = Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(16));

    /// <summary>A server that does not listen yet.</summary>
    /// <param name="session">Answers what the page asks.</param>
    /// <param name="port">On 127.0.0.1; 0 picks a free one.</param>
    public LayoutServer(LayoutSession session, int port)
    {
        WebApplicationBuilder builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        builder.WebHost.ConfigureKestrel(k =>
        {
            k.Listen(IPAddress.Loopback, port, o => o.Protocols = HttpProtocols.Http1);
            k.Limits.MaxRequestBodySize = MostBytes;
            k.Limits.MaxRequestLineSize = 32 * 1024;
            k.AddServerHeader = false;
        });
        _app = builder.Build();
        _app.Run(context => Answer(context, session));
    }

    /// <summary>The full address with its token; known once started.</summary>
    public string Address
    {
        get
        {
            string root = _app
                .Services.GetRequiredService<IServer>()
                .Features.Get<IServerAddressesFeature>()!
                .Addresses.First();
            return $"{root}/?token={_token}";
        }
    }

    /// <summary>Begins to listen.</summary>
    /// <exception cref="IOException">The port is taken.</exception>
    /// <exception cref="System.Net.Sockets.SocketException">The port may not be used, as one below 1024.</exception>
    public Task StartAsync() => _app.StartAsync();

    /// <summary>Returns when the run is stopped: Ctrl-C, or the token.</summary>
    public Task WaitAsync(CancellationToken stop) => HostingAbstractionsHostExtensions.WaitForShutdownAsync(_app, stop);

    /// <summary>Stops listening; the session is the caller's.</summary>
    public ValueTask DisposeAsync() => _app.DisposeAsync();

    private async Task Answer(HttpContext context, LayoutSession session)
    {
        HttpRequest request = context.Request;
        context.Response.Headers.CacheControl = "no-store";
        context.Response.Headers.XContentTypeOptions = "nosniff";
        context.Response.Headers.ContentSecurityPolicy =
            "default-src 'self'; img-src 'self' data:; frame-ancestors 'none'";
        context.Response.Headers["Referrer-Policy"] = "no-referrer";
        if (!IsOurs(request))
        {
            await Text(context, 403, "text/plain", "this page belongs to another address").ConfigureAwait(false);
            return;
        }
        string path = request.Path.Value ?? "/";
        if (path.StartsWith("/api/", StringComparison.Ordinal))
        {
            if (!HasToken(request))
            {
                await Text(
                        context,
                        403,
                        "text/plain",
                        "the address lacks its token; use the one that the program printed"
                    )
                    .ConfigureAwait(false);
                return;
            }
            await Api(context, session, path["/api/".Length..]).ConfigureAwait(false);
            return;
        }
        if (path == "/" && !HasToken(request))
        {
            await Text(context, 403, "text/plain", "the address lacks its token; use the one that the program printed")
                .ConfigureAwait(false);
            return;
        }
        await Page(context, path == "/" ? "index.html" : path[1..]).ConfigureAwait(false);
    }

    /// <summary>The Host must be this loopback address, so that a foreign name that resolves here is refused; an Origin, where sent, must be the same.</summary>
    private bool IsOurs(HttpRequest request)
    {
        Uri root = new(Address);
        string port = root.Port.ToString(CultureInfo.InvariantCulture);
        string[] names = ["127.0.0.1:" + port, "localhost:" + port];
        string host = request.Host.Value ?? "";
        string origin = request.Headers.Origin.ToString();
        return names.Contains(host, StringComparer.OrdinalIgnoreCase)
            && (origin.Length == 0 || string.Equals(origin, "http://" + host, StringComparison.OrdinalIgnoreCase));
    }

    private bool HasToken(HttpRequest request) =>
        CryptographicOperations.FixedTimeEquals(
            Encoding.ASCII.GetBytes(request.Query["token"].ToString()),
            Encoding.ASCII.GetBytes(_token)
        );

    private static async Task Api(HttpContext context, LayoutSession session, string call)
    {
        if (HttpMethods.IsPost(context.Request.Method) == OnlyRead.Contains(call))
        {
            await Text(context, 405, "application/json", """{"message":"this question is not asked in this way"}""")
                .ConfigureAwait(false);
            return;
        }
        JsonNode? body = null;
        if (HttpMethods.IsPost(context.Request.Method))
        {
            try
            {
                body = await JsonNode
                    .ParseAsync(context.Request.Body, null, Once, context.RequestAborted)
                    .ConfigureAwait(false);
            }
            catch (JsonException)
            {
                await Text(context, 400, "application/json", """{"message":"the request is not JSON"}""")
                    .ConfigureAwait(false);
                return;
            }
            catch (Microsoft.AspNetCore.Http.BadHttpRequestException e)
            {
                await Text(context, e.StatusCode, "application/json", """{"message":"the request is too large"}""")
                    .ConfigureAwait(false);
                return;
            }
        }
        LayoutAnswer answer = await Task.Run(
                () => session.Answer(call, body, context.Request.Query["for"].ToString()),
                context.RequestAborted
            )
            .ConfigureAwait(false);
        context.Response.StatusCode = answer.Status;
        context.Response.ContentType = answer.ContentType;
        await context.Response.Body.WriteAsync(answer.Body, context.RequestAborted).ConfigureAwait(false);
    }

    private static async Task Page(HttpContext context, string name)
    {
        using Stream? stream = Assembly.GetExecutingAssembly().GetManifestResourceStream("wwwroot/" + name);
        if (stream is null || name.Contains("..", StringComparison.Ordinal))
        {
            await Text(context, 404, "text/plain", "there is no such page").ConfigureAwait(false);
            return;
        }
        context.Response.ContentType = Path.GetExtension(name) switch
        {
            ".html" => "text/html; charset=utf-8",
            ".css" => "text/css; charset=utf-8",
            ".js" => "text/javascript; charset=utf-8",
            _ => "application/octet-stream",
        };
        await stream.CopyToAsync(context.Response.Body, context.RequestAborted).ConfigureAwait(false);
    }

    private static async Task Text(HttpContext context, int status, string type, string text)
    {
        context.Response.StatusCode = status;
        context.Response.ContentType = type + "; charset=utf-8";
        await context.Response.WriteAsync(text, context.RequestAborted).ConfigureAwait(false);
    }
}

/// <summary>What the session answers: an HTTP status and a body.</summary>
public sealed record LayoutAnswer(int Status, string ContentType, ReadOnlyMemory<byte> Body)
{
    /// <summary>What every JSON answer says of itself.</summary>
    public const string JsonType = "application/json; charset=utf-8";

    /// <summary>A JSON body, compact.</summary>
    public static LayoutAnswer Json(int status, JsonNode node) =>
        new(status, JsonType, Encoding.UTF8.GetBytes(node.ToJsonString()));

    /// <summary>{"message": ...}: what the page shows to the person.</summary>
    public static LayoutAnswer Message(int status, string message) =>
        Json(status, new JsonObject { ["message"] = message });
}

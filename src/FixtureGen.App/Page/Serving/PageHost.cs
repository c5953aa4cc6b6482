using System.Net;
using System.Reflection;
using System.Security.Cryptography;
using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using FixtureGen.App.Files;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Diagnostics;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.AspNetCore.Routing;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;

namespace FixtureGen.App.Page.Serving;

/// <summary>
/// The page's transport: loopback only, what <see cref="PageDoor"/> lets in, bodies of at most 256 kB unless a question says
/// otherwise. It serves the page's own files from the program and hands every question on; it opens no path of a request. What is
/// wrong with a request is 400 and names the member; what breaks is 500 with an id, and stands in the log.
/// </summary>
internal sealed class PageHost : IAsyncDisposable
{
    private const int MostBytes = 256 * 1024;

    private readonly WebApplication _app;
    private readonly FaultLog _faults;
    private readonly Action<string> _before;
    private readonly string _token = Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(16));

    /// <summary>A host that does not listen yet and is asked nothing yet.</summary>
    /// <param name="port">On 127.0.0.1; 0 picks a free one.</param>
    /// <param name="faults">Where what nobody expected is written.</param>
    /// <param name="before">Called with the name of each question before it is answered.</param>
    public PageHost(int port, FaultLog faults, Action<string> before)
    {
        _faults = faults;
        _before = before;
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
        _app.UseExceptionHandler(broken => broken.Run(BrokenAsync));
        _app.UseStatusCodePages(context => UnansweredAsync(context.HttpContext));
        _app.Use((context, next) => PageDoor.EnterAsync(context, next, Root, _token));
        _app.MapGet("/", context => PageAsync(context, "index.html"));
        _app.MapGet("/{name}", context => PageAsync(context, (string)context.GetRouteValue("name")!))
            .WithMetadata(OpenFile.Mark);
    }

    /// <summary>Every question that was entered, by its name, and whether it carries a body of JSON.</summary>
    public List<(string Name, bool Json)> Questions { get; } = [];

    /// <summary>The full address with its token; known once started.</summary>
    public string Address => $"{Root}/?token={_token}";

    private string Root =>
        _app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First();

    /// <summary>Begins to listen.</summary>
    /// <exception cref="IOException">The port is taken.</exception>
    /// <exception cref="System.Net.Sockets.SocketException">The port may not be used, as one below 1024.</exception>
    public Task StartAsync() => _app.StartAsync();

    /// <summary>Returns when the run is stopped: Ctrl-C, or the token.</summary>
    public Task WaitAsync(CancellationToken stop) => HostingAbstractionsHostExtensions.WaitForShutdownAsync(_app, stop);

    /// <summary>Stops listening; the session is the caller's.</summary>
    public ValueTask DisposeAsync() => _app.DisposeAsync();

    /// <summary>A question that changes nothing and carries no body.</summary>
    public void Get(string name, Func<HttpRequest, PageAnswer> answer)
    {
        Questions.Add((name, false));
        _app.MapGet(
            "/api/" + name,
            context =>
            {
                _before(name);
                return answer(context.Request).SendAsync(context);
            }
        );
    }

    /// <summary>A question with a body of JSON.</summary>
    public void Post<T>(string name, JsonTypeInfo<T> type, Func<HttpRequest, T, PageAnswer> answer)
        where T : class
    {
        Questions.Add((name, true));
        _app.MapPost(
            "/api/" + name,
            async context =>
            {
                if (!context.Request.HasJsonContentType())
                {
                    context.Response.StatusCode = StatusCodes.Status415UnsupportedMediaType;
                    return;
                }
                T? question;
                try
                {
                    question = await JsonSerializer
                        .DeserializeAsync(context.Request.Body, type, context.RequestAborted)
                        .ConfigureAwait(false);
                }
                catch (JsonException e)
                {
                    await PageAnswer
                        .NotUnderstood([RequestFindings.NotUnderstood(e)])
                        .SendAsync(context)
                        .ConfigureAwait(false);
                    return;
                }
                _before(name);
                PageAnswer given = question is null
                    ? PageAnswer.NotUnderstood([RequestFindings.Nothing()])
                    : answer(context.Request, question);
                await given.SendAsync(context).ConfigureAwait(false);
            }
        );
    }

    /// <summary>A question whose body is a file of at most so many bytes, taken as it is.</summary>
    public void PostFile(string name, long mostBytes, Func<HttpRequest, byte[], PageAnswer> answer)
    {
        Questions.Add((name, false));
        _app.MapPost(
            "/api/" + name,
            async context =>
            {
                context.Features.Get<IHttpMaxRequestBodySizeFeature>()!.MaxRequestBodySize = mostBytes;
                using MemoryStream body = new();
                await context.Request.Body.CopyToAsync(body, context.RequestAborted).ConfigureAwait(false);
                _before(name);
                await answer(context.Request, body.ToArray()).SendAsync(context).ConfigureAwait(false);
            }
        );
    }

    /// <summary>A request that the transport itself could not take is the caller's; all else that ends here is ours.</summary>
    private Task BrokenAsync(HttpContext context)
    {
        Exception cause = context.Features.Get<IExceptionHandlerFeature>()!.Error;
        PageAnswer answer = cause is Microsoft.AspNetCore.Http.BadHttpRequestException bad
            ? PageAnswer.Say(bad.StatusCode, bad.Message)
            : PageAnswer.Broken(_faults.Record(cause, $"page, {context.Request.Method} {context.Request.Path}"));
        return answer.SendAsync(context);
    }

    private static Task UnansweredAsync(HttpContext context)
    {
        int status = context.Response.StatusCode;
        string message = status switch
        {
            StatusCodes.Status404NotFound => "there is no such page",
            StatusCodes.Status405MethodNotAllowed => "this question is not asked in this way",
            StatusCodes.Status415UnsupportedMediaType => "a question is asked in application/json",
            _ => "the program cannot answer this",
        };
        return PageAnswer.Say(status, message).SendAsync(context);
    }

    private static async Task PageAsync(HttpContext context, string name)
    {
        using Stream? stream = Assembly.GetExecutingAssembly().GetManifestResourceStream("wwwroot/" + name);
        if (stream is null)
        {
            context.Response.StatusCode = StatusCodes.Status404NotFound;
            return;
        }
        context.Response.ContentType = Path.GetExtension(name) switch
        {
            ".html" => "text/html; charset=utf-8",
            ".css" => "text/css; charset=utf-8",
            ".js" => "text/javascript; charset=utf-8",
            ".svg" => "image/svg+xml",
            _ => "application/octet-stream",
        };
        await stream.CopyToAsync(context.Response.Body, context.RequestAborted).ConfigureAwait(false);
    }
}

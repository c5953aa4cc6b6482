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
using Microsoft.AspNetCore.Routing;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;

namespace FixtureGen.App.Page;

/// <summary>
/// The layout page's transport: loopback only, what <see cref="LayoutDoor"/> lets in, bodies of at most 256 kB. It serves the
/// page's own files from the program and hands every question to the session; it reads no path from a request. What is
/// wrong with a request is 400 and names the member; what breaks is 500 with an id, and stands in the log.
/// </summary>
internal sealed class LayoutServer : IAsyncDisposable
{
    private const int MostBytes = 256 * 1024;

    private readonly WebApplication _app;
    private readonly LayoutSession _session;
    private readonly FaultLog _faults;
    private readonly Action<string> _before;
    private readonly string _token = Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(16));

    /// <summary>A server that does not listen yet.</summary>
    /// <param name="session">Answers what the page asks.</param>
    /// <param name="port">On 127.0.0.1; 0 picks a free one.</param>
    /// <param name="faults">Where what nobody expected is written.</param>
    /// <param name="before">Called with the name of each question before it is answered.</param>
    public LayoutServer(LayoutSession session, int port, FaultLog faults, Action<string> before)
    {
        _session = session;
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
        _app.Use((context, next) => LayoutDoor.EnterAsync(context, next, Root, _token));
        MapQuestions();
        _app.MapGet("/", context => PageAsync(context, "index.html"));
        _app.MapGet("/{name}", context => PageAsync(context, (string)context.GetRouteValue("name")!))
            .WithMetadata(OpenFile.Mark);
    }

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

    /// <summary>Questions that change nothing and carry no body are GET, all others POST.</summary>
    private void MapQuestions()
    {
        Get("state", _ => _session.State());
        Get("progress", _ => _session.Progress());
        Get("block.png", request => Block(request.Query["for"].ToString()));
        Post("try", PageJson.Default.LayoutQuestion, _session.Try);
        Post("best", PageJson.Default.LayoutQuestion, _session.Best);
        Post("fewest", PageJson.Default.LayoutQuestion, _session.Fewest);
        Post("section", PageJson.Default.SectionQuestion, _session.Section);
        Post("save", PageJson.Default.SaveQuestion, _session.Save);
        Post("make", PageJson.Default.MakeQuestion, _ => _session.Make());
    }

    private void Get(string name, Func<HttpRequest, LayoutAnswer> answer) =>
        _app.MapGet(
            "/api/" + name,
            context =>
            {
                _before(name);
                return answer(context.Request).SendAsync(context);
            }
        );

    private void Post<T>(string name, JsonTypeInfo<T> type, Func<T, LayoutAnswer> answer)
        where T : class =>
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
                    await LayoutAnswer
                        .NotUnderstood([RequestFindings.NotUnderstood(e)])
                        .SendAsync(context)
                        .ConfigureAwait(false);
                    return;
                }
                _before(name);
                LayoutAnswer given = question is null
                    ? LayoutAnswer.NotUnderstood([RequestFindings.Nothing()])
                    : answer(question);
                await given.SendAsync(context).ConfigureAwait(false);
            }
        );

    private LayoutAnswer Block(string text)
    {
        LayoutQuestion? question;
        try
        {
            question = JsonSerializer.Deserialize(text, PageJson.Default.LayoutQuestion);
        }
        catch (JsonException e)
        {
            return LayoutAnswer.NotUnderstood([RequestFindings.NotUnderstood(e)]);
        }
        return question is null ? LayoutAnswer.NotUnderstood([RequestFindings.Nothing()]) : _session.Block(question);
    }

    /// <summary>A request that the transport itself could not take is the caller's; all else that ends here is ours.</summary>
    private Task BrokenAsync(HttpContext context)
    {
        Exception cause = context.Features.Get<IExceptionHandlerFeature>()!.Error;
        LayoutAnswer answer = cause is Microsoft.AspNetCore.Http.BadHttpRequestException bad
            ? LayoutAnswer.Say(bad.StatusCode, bad.Message)
            : LayoutAnswer.Broken(
                _faults.Record(cause, $"layout page, {context.Request.Method} {context.Request.Path}")
            );
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
        return LayoutAnswer.Say(status, message).SendAsync(context);
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
            _ => "application/octet-stream",
        };
        await stream.CopyToAsync(context.Response.Body, context.RequestAborted).ConfigureAwait(false);
    }
}

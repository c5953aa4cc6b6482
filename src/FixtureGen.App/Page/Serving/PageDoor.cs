using System.Security.Cryptography;
using System.Text;
using Microsoft.AspNetCore.Http;

namespace FixtureGen.App.Page.Serving;

/// <summary>
/// Who may ask: a foreign Host or Origin is answered with 403, and so is all but the files that the page loads without the token.
/// Every answer forbids framing by others, keeping and foreign sources, forms that lead elsewhere and another base.
/// </summary>
internal static class PageDoor
{
    private const string NoToken = "the address lacks its token; use the one that the program printed";

    /// <summary>Lets the request on or answers it. Root is the address that is listened on, http://127.0.0.1:PORT.</summary>
    public static Task EnterAsync(HttpContext context, RequestDelegate next, string root, string token)
    {
        context.Response.OnStarting(() => Guard(context.Response.Headers));
        if (!IsOurs(context.Request, new Uri(root)))
        {
            return PageAnswer.Say(403, "this page belongs to another address").SendAsync(context);
        }
        bool open = context.GetEndpoint()?.Metadata.GetMetadata<OpenFile>() is not null;
        return !open && !HasToken(context.Request, token)
            ? PageAnswer.Say(403, NoToken).SendAsync(context)
            : next(context);
    }

    private static Task Guard(IHeaderDictionary headers)
    {
        headers.CacheControl = "no-store";
        headers.XContentTypeOptions = "nosniff";
        headers.ContentSecurityPolicy =
            "default-src 'self'; img-src 'self' data:; frame-ancestors 'self'; base-uri 'none'; form-action 'none'";
        headers["Referrer-Policy"] = "no-referrer";
        return Task.CompletedTask;
    }

    /// <summary>The Host must be this loopback address, so that a foreign name that resolves here is refused; an Origin, where sent, must be the same.</summary>
    private static bool IsOurs(HttpRequest request, Uri root)
    {
        HostString host = request.Host;
        string origin = request.Headers.Origin.ToString();
        return host.Port == root.Port
            && (Same(host.Host, root.Host) || Same(host.Host, "localhost"))
            && (origin.Length == 0 || Same(origin, "http://" + host.Value));
    }

    private static bool Same(string a, string b) => string.Equals(a, b, StringComparison.OrdinalIgnoreCase);

    private static bool HasToken(HttpRequest request, string token) =>
        CryptographicOperations.FixedTimeEquals(
            Encoding.UTF8.GetBytes(request.Query["token"].ToString()),
            Encoding.UTF8.GetBytes(token)
        );
}

/// <summary>Marks what is answered without the token: the page's scripts and styles, which say nothing of the job.</summary>
internal sealed class OpenFile
{
    /// <summary>The mark.</summary>
    public static readonly OpenFile Mark = new();
}

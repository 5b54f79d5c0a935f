namespace Tankside.Portal.Shell;

/// <summary>
/// The line of a living page is opened by our own pages only. A browser names the page that opens one in Origin, which no script can set, and sends
/// cookies along whosever page it is; so what another site names is refused, and a WebSocket that names nothing is too.
/// </summary>
public static class OwnOrigin
{
    public static IApplicationBuilder UseOwnOrigin(this WebApplication app)
    {
        var options = app.Services.GetRequiredService<TanksideOptions>();
        return app.UseWhen(c => c.Request.Path.StartsWithSegments("/_blazor"), living => living.Use((context, next) =>
        {
            if (IsOwn(context.Request, options.PublicUrl))
            {
                return next(context);
            }

            context.Response.StatusCode = StatusCodes.Status403Forbidden;
            return context.Response.WriteAsync("Only pages of this portal open this address.", context.RequestAborted);
        }));
    }

    /// <param name="request">Whose host is the one that the browser asked, or the one a proxy passes on.</param>
    /// <param name="publicUrl">Counts too: a proxy may ask this portal under another name.</param>
    public static bool IsOwn(HttpRequest request, Uri publicUrl)
    {
        if (request.Headers.Origin.Count == 0)
        {
            return !IsWebSocket(request);
        }

        return Uri.TryCreate(request.Headers.Origin.ToString(), UriKind.Absolute, out var origin)
            && (IsSame(origin, request.Host.Host, request.Host.Port) || IsSame(origin, publicUrl.Host, publicUrl.Port));
    }

    private static bool IsSame(Uri origin, string host, int? port) =>
        string.Equals(origin.Host, host, StringComparison.OrdinalIgnoreCase) && (port is { } named ? origin.Port == named : origin.IsDefaultPort);

    /// <summary>By HTTP/2 a WebSocket is asked for by CONNECT, by HTTP/1.1 as an upgrade.</summary>
    private static bool IsWebSocket(HttpRequest request) =>
        HttpMethods.IsConnect(request.Method) || request.Headers.Upgrade.ToString().Equals("websocket", StringComparison.OrdinalIgnoreCase);
}

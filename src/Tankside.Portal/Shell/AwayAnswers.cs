using System.Globalization;
using Microsoft.AspNetCore.Mvc;
using Tankside.Storage;

namespace Tankside.Portal.Shell;

/// <summary>
/// What is answered while the database is away or has no room: 503 and when to come again. Not a fault of ours or of the sender; the page is made without the
/// database, in both languages, because whose language it is stands there.
/// </summary>
public static class AwayAnswers
{
    /// <summary>A replica is made the primary, or a server started again, in about so long.</summary>
    private const int Seconds = 5;

    public static IApplicationBuilder UseAwayAnswers(this IApplicationBuilder app) => app.Use(async (context, next) =>
    {
        try
        {
            await next(context);
        }
        catch (Exception e) when (DatabaseAway.Is(e) && !context.Response.HasStarted)
        {
            context.RequestServices.GetRequiredService<ILogger<TanksideOptions>>().LogWarning("The database is away: {Trouble}", e.GetBaseException().Message);
            await AnswerAsync(context, DatabaseAway.IsFull(e));
        }
    });

    private static async Task AnswerAsync(HttpContext context, bool isFull)
    {
        var response = context.Response;
        foreach (var name in new[] { "Content-Length", "Content-Encoding", "Content-Type", "Location", "ETag", "Last-Modified", "Set-Cookie", ClassMark.Next })
        {
            response.Headers.Remove(name);
        }

        response.StatusCode = StatusCodes.Status503ServiceUnavailable;
        response.Headers.RetryAfter = Seconds.ToString(CultureInfo.InvariantCulture);
        response.Headers.CacheControl = "no-store";
        if (context.Request.Path.StartsWithSegments("/api"))
        {
            await response.WriteAsJsonAsync(
                new ProblemDetails
                {
                    Status = StatusCodes.Status503ServiceUnavailable,
                    Title = isFull ? "The database has no room left at the moment." : "The database cannot be reached at the moment.",
                    Detail = "What you sent is not confirmed as stored. Send the same again, with the same ids, after the seconds in Retry-After: what did arrive is then a duplicate and stays stored once.",
                },
                options: null,
                contentType: "application/problem+json");
            return;
        }

        response.ContentType = "text/html; charset=utf-8";
        await response.WriteAsync(HttpMethods.IsGet(context.Request.Method) ? Fetched : isFull ? SentToFull : Sent);
    }

    private static readonly string Fetched = Page(
        string.Create(CultureInfo.InvariantCulture, $"""<meta http-equiv="refresh" content="{Seconds}" />"""),
        "Our database does not answer. What was saved is safe. This page tries again by itself every few seconds.",
        "Nuestra base de datos no responde. Lo que se guardó está a salvo. Esta página vuelve a intentarlo sola cada pocos segundos.");

    private static readonly string Sent = SentPage("Our database does not answer.", "Nuestra base de datos no responde.");

    private static readonly string SentToFull = SentPage("Our database has no room left.", "Nuestra base de datos no tiene espacio libre.");

    private static string SentPage(string english, string spanish) => Page(
        "",
        $"{english} What you have just sent is not confirmed as saved. Wait half a minute, then load this page again and let it be sent once more. A reading that arrived after all is not stored twice.",
        $"{spanish} Lo que acaba de enviar no está confirmado como guardado. Espere medio minuto, vuelva a cargar esta página y deje que se envíe otra vez. Una lectura que sí llegó no se guarda dos veces.");

    private static string Page(string again, string english, string spanish) => $"""
        <!DOCTYPE html>
        <html lang="en">
        <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta name="robots" content="noindex" />
        {again}
        <title>Please again in a moment · Por favor, otra vez en un momento</title>
        <link rel="stylesheet" href="/css/class.css" />
        <link rel="icon" type="image/svg+xml" href="/icon.svg" />
        </head>
        <body class="class-page">
        <header class="tank-head"><h1>Please again in a moment</h1></header>
        <main>
        <p>{english}</p>
        <div lang="es">
        <h2>Por favor, otra vez en un momento</h2>
        <p>{spanish}</p>
        </div>
        </main>
        </body>
        </html>
        """;
}

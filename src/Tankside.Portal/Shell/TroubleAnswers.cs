using Microsoft.AspNetCore.Diagnostics;

namespace Tankside.Portal.Shell;

/// <summary>How a refusal or a fault is answered: a page for people, problem details for programs.</summary>
public static class TroubleAnswers
{
    /// <summary>A fault shows the trouble page; a request that could not even be read is the sender's 4xx, not our 500.</summary>
    public static ExceptionHandlerOptions Page => new()
    {
        ExceptionHandlingPath = "/trouble",
        CreateScopeForErrors = true,
        StatusCodeSelector = error => error is BadHttpRequestException bad ? bad.StatusCode : StatusCodes.Status500InternalServerError,
        // A stranger could fill the log with faults of ours that are none; the line of the request stands there as for any other.
        SuppressDiagnosticsCallback = fault => fault.Exception is BadHttpRequestException,
    };

    /// <summary>
    /// The page that tells what went wrong is fetched, whatever was sent: a form whose token is no good would be refused a second time there,
    /// and the answer would be a bare error instead of the page.
    /// </summary>
    public static IApplicationBuilder UseFetchedTroublePages(this IApplicationBuilder app) => app.Use(async (context, next) =>
    {
        var method = context.Request.Method;
        if (context.Features.Get<IStatusCodeReExecuteFeature>() is not null || context.Features.Get<IExceptionHandlerFeature>() is not null)
        {
            context.Request.Method = HttpMethods.Get;
        }

        try
        {
            await next(context);
        }
        finally
        {
            context.Request.Method = method;
        }
    });

    /// <summary>Under /api no page stands in for an answer: a fault is problem details, and a status without a body stays as it is.</summary>
    public static IApplicationBuilder UseApiProblems(this IApplicationBuilder app)
    {
        app.Use((context, next) =>
        {
            if (IsApi(context) && context.Features.Get<IStatusCodePagesFeature>() is { } pages)
            {
                pages.Enabled = false;
            }

            return next(context);
        });
        return app.UseWhen(IsApi, api => api.UseExceptionHandler());
    }

    /// <summary>An address under /api that does not exist answers in the API's own form too.</summary>
    public static void MapNoSuchAddress(this IEndpointRouteBuilder routes) =>
        routes.MapFallback("/api/{**rest}", NothingHereAsync).AllowAnonymous();

    private static Task NothingHereAsync(HttpContext context) =>
        TypedResults.Problem("There is nothing at this address. The OpenAPI document is at /openapi/v1.json.", statusCode: 404).ExecuteAsync(context);

    private static bool IsApi(HttpContext context) => context.Request.Path.StartsWithSegments("/api");
}

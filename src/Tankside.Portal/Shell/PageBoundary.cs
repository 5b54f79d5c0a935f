using System.Runtime.ExceptionServices;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Web;
using Tankside.Storage;

namespace Tankside.Portal.Shell;

/// <summary>
/// Keeps a fault within the page, whose frame stays. That the database is away is no fault of the page: while nothing is sent yet the whole
/// answer says so (<see cref="AwayAnswers"/>). Nor is a form answered by a page in which it is missing: the trouble page says what became of it.
/// </summary>
public sealed class PageBoundary : ErrorBoundary
{
    [CascadingParameter]
    private HttpContext? Http { get; set; }

    protected override Task OnErrorAsync(Exception exception)
    {
        if (Http is { Response.HasStarted: false } http && (HttpMethods.IsPost(http.Request.Method) || DatabaseAway.Is(exception)))
        {
            ExceptionDispatchInfo.Throw(exception);
        }

        return base.OnErrorAsync(exception);
    }
}

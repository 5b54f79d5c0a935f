using System.Runtime.ExceptionServices;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Routing;
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
        if (Http is not { Response.HasStarted: false } http || !(HttpMethods.IsPost(http.Request.Method) || DatabaseAway.Is(exception)))
        {
            return base.OnErrorAsync(exception);
        }

        if (IsUnreadableAddress(exception))
        {
            throw new BadHttpRequestException("The query of the address cannot be read.", exception);
        }

        ExceptionDispatchInfo.Throw(exception);
        return Task.CompletedTask;
    }

    /// <summary>A word where a page takes a number or a day: the framework has no exception of its own for it.</summary>
    private static bool IsUnreadableAddress(Exception exception) =>
        exception is InvalidOperationException && exception.TargetSite?.DeclaringType?.Namespace == typeof(Router).Namespace;
}

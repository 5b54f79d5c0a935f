using Tankside.Portal.Shell;

namespace Tankside.Portal.Flags.AtTheTank;

/// <summary>303: the browser fetches the next page with GET, and a reload does not send the form again.</summary>
internal sealed class SeeOther(string to) : IResult
{
    public Task ExecuteAsync(HttpContext httpContext)
    {
        if (httpContext.Request.Headers.ContainsKey(ClassMark.Outbox))
        {
            // The outbox cannot look into a redirect, and a filter's redirect to its own page looks the same: it is told in a header.
            httpContext.Response.Headers[ClassMark.Next] = to;
            return Task.CompletedTask;
        }

        httpContext.Response.StatusCode = StatusCodes.Status303SeeOther;
        httpContext.Response.Headers.Location = to;
        return Task.CompletedTask;
    }
}

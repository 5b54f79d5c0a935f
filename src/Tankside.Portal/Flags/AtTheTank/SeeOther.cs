namespace Tankside.Portal.Flags.AtTheTank;

/// <summary>303: the browser fetches the next page with GET, and a reload does not send the form again.</summary>
internal sealed class SeeOther(string to) : IResult
{
    public Task ExecuteAsync(HttpContext httpContext)
    {
        httpContext.Response.StatusCode = StatusCodes.Status303SeeOther;
        httpContext.Response.Headers.Location = to;
        return Task.CompletedTask;
    }
}

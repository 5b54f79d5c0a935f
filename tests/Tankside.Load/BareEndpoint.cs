using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Logging;

namespace Tankside.Load;

/// <summary>The least that a web server does: one address, nothing in front of it.</summary>
public static class BareEndpoint
{
    public static async Task<WebApplication> StartAsync(string pattern, RequestDelegate answer)
    {
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        builder.WebHost.UseUrls("http://127.0.0.1:0");
        var app = builder.Build();
        app.MapPost(pattern, answer);
        await app.StartAsync();
        return app;
    }
}

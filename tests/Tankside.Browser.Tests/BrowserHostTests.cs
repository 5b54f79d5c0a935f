using Tankside.Testing;

namespace Tankside.Browser.Tests;

public class BrowserHostTests
{
    [BrowserFact]
    public async Task The_portal_is_reached_by_a_real_browser_and_calls_nobody_else()
    {
        await using var host = await BrowserHost.StartAsync();
        var page = await host.PageAsync();

        var answer = await page.GotoAsync("/health/ready");

        Assert.Equal(200, answer!.Status);
        Assert.Empty(host.Troubles);
    }

    [BrowserFact]
    public async Task A_script_that_fails_is_noted()
    {
        await using var host = await BrowserHost.StartAsync();
        var page = await host.PageAsync();
        await page.GotoAsync("/health/live");

        await page.EvaluateAsync("console.error('broken on purpose')");

        Assert.Contains("broken on purpose", host.Troubles);
    }

    [BrowserFact]
    public async Task The_styles_and_scripts_are_served()
    {
        await using var host = await BrowserHost.StartAsync();
        var client = host.Portal.Anonymous();

        Assert.Equal("text/css", (await client.GetAsync("/css/app.css")).Content.Headers.ContentType?.MediaType);
        Assert.Equal("text/javascript", (await client.GetAsync("/_framework/blazor.web.js")).Content.Headers.ContentType?.MediaType);
        Assert.Equal("text/css", (await client.GetAsync("/_content/MudBlazor/MudBlazor.min.css")).Content.Headers.ContentType?.MediaType);
    }
}

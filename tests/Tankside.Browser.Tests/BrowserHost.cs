using Microsoft.Playwright;
using Tankside.Hatchery.People;
using Tankside.Portal.Tests;
using Tankside.Portal.Tests.Access;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Browser.Tests;

/// <summary>A portal that listens on a real port, the small made-up world in it, and the browser that looks at it.</summary>
public sealed class BrowserHost : IAsyncDisposable
{
    private static readonly Lazy<Task<IBrowser>> Browser = new(LaunchAsync);

    private readonly Uri address;
    private readonly List<IBrowserContext> contexts = [];
    private readonly List<string> troubles = [];

    private BrowserHost(PortalHost portal, TestWorld world, Uri address) => (Portal, World, this.address) = (portal, world, address);

    public PortalHost Portal { get; }

    public TestWorld World { get; }

    /// <summary>Scripts that failed, and requests to any other host; empty on a page that is well.</summary>
    public IReadOnlyList<string> Troubles => troubles;

    /// <summary>A portal whose judge works by itself, as people meet it.</summary>
    public static async Task<BrowserHost> StartAsync(DatabaseKind kind = DatabaseKind.Sqlite, PortalHostSettings? settings = null)
    {
        var (portal, world) = await PortalHost.CreateWithWorldAsync(kind, settings ?? new PortalHostSettings { JudgeWorks = true });
        return new BrowserHost(portal, world, portal.Listen());
    }

    /// <summary>A portal whose database holds nothing yet; <see cref="World"/> is not in it.</summary>
    public static async Task<BrowserHost> StartEmptyAsync(PortalHostSettings settings)
    {
        var portal = await PortalHost.CreateAsync(DatabaseKind.Sqlite, settings);
        return new BrowserHost(portal, new TestWorld(), portal.Listen());
    }

    /// <summary>The world of the address table, which has something to show at every address.</summary>
    public static BrowserHost Of(Callers callers) => new(callers.Host, callers.World, callers.Host.ClientOptions.BaseAddress);

    /// <summary>A page of a visitor of their own: no cookie, nothing cached.</summary>
    /// <param name="width">Width of the window in CSS pixels.</param>
    /// <param name="withScripts">False to look at it as a browser without JavaScript does.</param>
    public async Task<IPage> PageAsync(int width = 1366, bool withScripts = true)
    {
        var context = await (await Browser.Value).NewContextAsync(new BrowserNewContextOptions
        {
            BaseURL = address.ToString(),
            JavaScriptEnabled = withScripts,
            ViewportSize = new ViewportSize { Width = width, Height = 800 },
            Locale = "en-US",
            ReducedMotion = ReducedMotion.Reduce,
        });
        contexts.Add(context);
        var page = await context.NewPageAsync();
        page.Console += (_, message) => Note(message.Type == "error", message.Text);
        page.PageError += (_, error) => Note(true, error);
        page.Request += (_, request) => Note(IsElsewhere(request.Url), request.Url);
        return page;
    }

    /// <summary>A page of a person who has signed in by the sign-in page.</summary>
    public async Task<IPage> PageAsAsync(Role role, TestProgramme? programme = null, int width = 1366)
    {
        var page = await PageAsync(width);
        await page.GotoAsync("/sign-in");
        await page.Locator("input[type=email]").FillAsync((programme ?? World.One).EmailOf(role));
        await page.Locator("input[type=password]").FillAsync(TestWorld.Password);
        await page.Locator("main button[type=submit]").ClickAsync();
        await page.ArrivesAtAsync("^(?!.*/sign-in)");
        return page;
    }

    public async ValueTask DisposeAsync()
    {
        foreach (var context in contexts)
        {
            await context.DisposeAsync();
        }

        await Portal.DisposeAsync();
    }

    private bool IsElsewhere(string url) =>
        Uri.TryCreate(url, UriKind.Absolute, out var asked) && asked.Scheme is "http" or "https" && asked.Authority != address.Authority;

    private void Note(bool isTrouble, string what)
    {
        if (isTrouble)
        {
            lock (troubles)
            {
                troubles.Add(what);
            }
        }
    }

    private static async Task<IBrowser> LaunchAsync()
    {
        var playwright = await Playwright.CreateAsync();
        return await playwright.Chromium.LaunchAsync(new BrowserTypeLaunchOptions
        {
            ExecutablePath = Chromium.Executable ?? throw new InvalidOperationException(Chromium.WhyUnavailable),
            Args = Chromium.Switches,
        });
    }
}

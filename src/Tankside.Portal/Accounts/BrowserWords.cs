namespace Tankside.Portal.Accounts;

/// <summary>What a browser says of itself, in two words: enough to tell one's phone from the computer at school, and no more is kept.</summary>
public static class BrowserWords
{
    /// <summary>The first that fits counts: most browsers name others besides themselves.</summary>
    private static readonly (string Sign, string Name)[] Browsers =
    [
        ("Edg/", "Edge"), ("EdgA/", "Edge"), ("EdgiOS/", "Edge"), ("OPR/", "Opera"), ("SamsungBrowser/", "Samsung Internet"), ("Firefox/", "Firefox"), ("FxiOS/", "Firefox"),
        ("CriOS/", "Chrome"), ("Chrome/", "Chrome"), ("Chromium/", "Chrome"), ("Version/", "Safari"),
    ];

    private static readonly (string Sign, string Name)[] Systems =
    [
        ("iPhone", "iPhone"), ("iPad", "iPad"), ("Android", "Android"), ("Windows", "Windows"), ("CrOS", "ChromeOS"), ("Macintosh", "Mac"), ("Linux", "Linux"),
    ];

    public static (string? Browser, string? System) Of(string? userAgent) => (Named(Browsers, userAgent), Named(Systems, userAgent));

    private static string? Named((string Sign, string Name)[] known, string? userAgent) =>
        userAgent is null ? null : Array.Find(known, k => userAgent.Contains(k.Sign, StringComparison.Ordinal)).Name;
}

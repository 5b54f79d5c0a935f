using System.Globalization;

namespace Tankside.Portal.Shell;

/// <summary>
/// Which language a page is said in: the person's own; for nobody the one chosen by the link on the page, else the one the browser likes best.
/// </summary>
public static class SpokenLanguage
{
    /// <summary>Holds the language that nobody in particular chose, and nothing else.</summary>
    public const string Cookie = "tankside-language";

    /// <summary>Of the link to the same page in the other language.</summary>
    public const string Query = "language";

    /// <summary>The person's own language, among what the session says of them.</summary>
    public const string Claim = "language";

    public static void AddSpokenLanguage(this IServiceCollection services) =>
        services.AddScoped(s => Say.In(Of(s.GetRequiredService<IHttpContextAccessor>().HttpContext), strict: !s.GetRequiredService<IHostEnvironment>().IsProduction()));

    /// <summary>Keeps what nobody in particular chose, so that the next page is in that language too.</summary>
    public static IApplicationBuilder UseChosenLanguage(this IApplicationBuilder app) => app.Use((context, next) =>
    {
        if (IsSpoken(context) && !IsSomebody(context) && Known(context.Request.Query[Query]) is { } chosen)
        {
            context.Response.Cookies.Append(Cookie, chosen, new CookieOptions
            {
                HttpOnly = true,
                SameSite = SameSiteMode.Lax,
                Secure = context.Request.IsHttps,
                MaxAge = TimeSpan.FromDays(365),
            });
        }

        return next(context);
    });

    public static bool IsSpoken(HttpContext? http) => http?.GetEndpoint()?.Metadata.GetMetadata<SpokenAttribute>() is not null;

    /// <summary>This page in another language.</summary>
    public static string AddressIn(string language, HttpRequest request) => request.PathBase + request.Path
        + QueryString.Create([.. request.Query.Where(q => q.Key != Query), new(Query, language)]);

    /// <summary>What a browser likes best of the languages there are; English when it likes none.</summary>
    /// <param name="acceptLanguage">The header as sent, e.g. "es-MX,es;q=0.9,en;q=0.8".</param>
    public static string Liked(string? acceptLanguage) => (acceptLanguage ?? "").Split(',')
        .Select(part => part.Split(';'))
        .Select((part, place) => (Language: Known(part[0].Trim().Split('-')[0].ToLowerInvariant()), Weight: WeightOf(part), place))
        .Where(l => l.Language is not null && l.Weight > 0)
        .OrderByDescending(l => l.Weight).ThenBy(l => l.place)
        .Select(l => l.Language).FirstOrDefault() ?? Say.English;

    private static string Of(HttpContext? http) =>
        http is null || !IsSpoken(http) ? Say.English
        : IsSomebody(http) ? Known(http.User.FindFirst(Claim)?.Value) ?? Say.English
        : Known(http.Request.Query[Query]) ?? Known(http.Request.Cookies[Cookie]) ?? Liked(http.Request.Headers.AcceptLanguage);

    private static bool IsSomebody(HttpContext http) => http.User.Identity is { IsAuthenticated: true };

    private static string? Known(string? language) => language is not null && Say.Languages.ContainsKey(language) ? language : null;

    private static double WeightOf(string[] part) =>
        part.Length > 1 && part[1].Trim() is ['q', '=', .. var weight] && double.TryParse(weight, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var q) ? q : 1;
}

using System.Net;
using System.Text.RegularExpressions;

namespace Tankside.Portal.Tests.Accounts;

/// <summary>What a person reads on a page.</summary>
public static partial class Pages
{
    /// <summary>The page's words, as they are read.</summary>
    public static async Task<string> WordsAsync(this HttpResponseMessage answer)
    {
        var html = await answer.Content.ReadAsStringAsync();
        return WebUtility.HtmlDecode(Spaces().Replace(Tag().Replace(html, " "), " "));
    }

    public static async Task<string> WordsAsync(this HttpClient client, string address) => await (await client.GetAsync(address)).WordsAsync();

    /// <summary>Where an answer leads on to.</summary>
    public static string Next(this HttpResponseMessage answer) => answer.Headers.Location is { } next
        ? next.IsAbsoluteUri ? next.PathAndQuery : next.OriginalString
        : $"nowhere, {(int)answer.StatusCode}";

    /// <summary>The words of the notice on a page; null without one.</summary>
    public static async Task<string?> NoticeAsync(this HttpResponseMessage answer)
    {
        var notice = Notice().Match(await answer.Content.ReadAsStringAsync());
        return notice.Success ? WebUtility.HtmlDecode(Spaces().Replace(Tag().Replace(notice.Groups[1].Value, " "), " ")).Trim() : null;
    }

    /// <summary>The path of the link that a page shows to hand on; null when it shows none.</summary>
    public static async Task<string?> LinkToHandOnAsync(this HttpResponseMessage answer)
    {
        var shown = Link().Match(await answer.Content.ReadAsStringAsync());
        return shown.Success ? new Uri(WebUtility.HtmlDecode(shown.Groups[1].Value)).PathAndQuery : null;
    }

    /// <summary>Sends a form of a page that was opened earlier and may have changed since.</summary>
    public static Task<HttpResponseMessage> PostSeenAsync(
        this HttpClient client, string address, string seen, string form, IReadOnlyDictionary<string, string> fields) =>
        client.PostAsync(address, new FormUrlEncodedContent(new Dictionary<string, string>(fields)
        {
            ["_handler"] = form,
            ["__RequestVerificationToken"] = Token().Match(seen).Groups[1].Value,
        }));

    [GeneratedRegex("name=\"__RequestVerificationToken\" value=\"([^\"]*)\"")]
    private static partial Regex Token();

    [GeneratedRegex("<(script|style|head)\\b.*?</\\1>|<[^>]*>", RegexOptions.Singleline)]
    private static partial Regex Tag();

    [GeneratedRegex("\\s+")]
    private static partial Regex Spaces();

    [GeneratedRegex("<div[^>]*class=\"notice[^\"]*\"[^>]*>(.*?)</div>", RegexOptions.Singleline)]
    private static partial Regex Notice();

    [GeneratedRegex("id=\"link-to-hand-on\"[^>]*value=\"([^\"]*)\"")]
    private static partial Regex Link();
}

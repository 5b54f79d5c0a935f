using System.Net;
using System.Text.RegularExpressions;

namespace Tankside.Portal.Tests.Flags;

/// <summary>Pages as a person reads them.</summary>
internal static partial class ShownPages
{
    /// <summary>The words of a page that must be shown: no tags, one space between words.</summary>
    public static async Task<string> ReadAsync(this HttpClient client, string address)
    {
        var answer = await client.GetAsync(address);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        return Words(await answer.Content.ReadAsStringAsync());
    }

    /// <summary>Signed in, but in a role for which the page is not.</summary>
    public static async Task AssertNotTheirsAsync(this HttpClient client, string address)
    {
        var answer = await client.GetAsync(address);
        Assert.Equal((HttpStatusCode.Redirect, "/not-yours"), (answer.StatusCode, answer.Headers.Location?.AbsolutePath));
    }

    private static string Words(string html) =>
        Space().Replace(WebUtility.HtmlDecode(Tag().Replace(html, " ")), " ").Replace(" .", ".", StringComparison.Ordinal);

    [GeneratedRegex("<(script|style)\\b.*?</\\1>|<[^>]*>", RegexOptions.Singleline)]
    private static partial Regex Tag();

    [GeneratedRegex("\\s+")]
    private static partial Regex Space();
}

using System.Globalization;
using System.Net;
using System.Text.Json;
using System.Text.RegularExpressions;

namespace Tankside.Load.Faults;

/// <summary>Sends, and reads the answer as whoever sent it does.</summary>
public static partial class Sending
{
    private const int Most = 90;

    public static Task<Said> SendAsync(Func<Task<HttpResponseMessage>> send, HttpStatusCode good) =>
        SendAsync(send, answer => Task.FromResult(answer.StatusCode == good));

    public static async Task<Said> SendAsync(Func<Task<HttpResponseMessage>> send, Func<HttpResponseMessage, Task<bool>> isStored)
    {
        using var answer = await send();
        if (await isStored(answer))
        {
            return new Said(true, "");
        }

        var words = Words(await answer.Content.ReadAsStringAsync());
        return new Said(false, string.Create(CultureInfo.InvariantCulture, $"{(int)answer.StatusCode} {Short(words)}"), IsClear(words));
    }

    /// <summary>A refusal that leaves nobody in doubt says what became of what was sent.</summary>
    private static bool IsClear(string words) =>
        new[] { "not confirmed", "Nothing was", "nothing was", "may not be", "was not saved", "not stored" }.Any(w => words.Contains(w, StringComparison.Ordinal));

    private static string Short(string words) => words.Length > Most ? words[..Most] + "…" : words;

    /// <summary>Of a page what stands in its main part; of problem details the title and the detail.</summary>
    private static string Words(string body)
    {
        if (body.StartsWith('{'))
        {
            var problem = JsonDocument.Parse(body).RootElement;
            return string.Join(" ", new[] { "title", "detail" }.Select(n => problem.TryGetProperty(n, out var text) ? text.GetString() : null).OfType<string>());
        }

        var main = MainPart().Match(body) is { Success: true } found ? found.Value : body;
        return Space().Replace(WebUtility.HtmlDecode(Tag().Replace(main, " ")), " ").Trim();
    }

    [GeneratedRegex("<main\\b.*?</main>", RegexOptions.Singleline)]
    private static partial Regex MainPart();

    [GeneratedRegex("<(script|style)\\b.*?</\\1>|<[^>]*>", RegexOptions.Singleline)]
    private static partial Regex Tag();

    [GeneratedRegex("\\s+")]
    private static partial Regex Space();
}

using System.Net;
using System.Text.RegularExpressions;

namespace Tankside.Portal.Tests;

/// <summary>Fills in the portal's plain HTML forms the way a browser without scripts does.</summary>
public static partial class PortalHostForms
{
    /// <summary>
    /// Opens a page, fills in its form and sends it with everything hidden in it, the anti-forgery token included.
    /// </summary>
    /// <param name="fields">Values by field name; they win over what the page filled in.</param>
    /// <param name="handler">The form's name when the page has several.</param>
    public static async Task<HttpResponseMessage> PostFormAsync(
        this HttpClient client, string address, IReadOnlyDictionary<string, string> fields, string? handler = null)
    {
        var page = await client.GetStringAsync(address);
        return await client.PostAsync(ActionOf(page, handler) ?? address, Filled(page, handler, fields));
    }

    /// <summary>Signs in by the sign-in page; throws when the page does not let the person in.</summary>
    public static async Task SignInAsync(this HttpClient client, string email, string password)
    {
        var page = await client.GetStringAsync("/sign-in");
        var inputs = InputTag().Matches(FormOf(page, null)).Select(m => m.Value).ToList();
        var answer = await client.PostAsync("/sign-in", Filled(page, null, new Dictionary<string, string>
        {
            [NameOf(inputs.First(i => Attribute(i, "type") == "email"))] = email,
            [NameOf(inputs.First(i => Attribute(i, "type") == "password"))] = password,
        }));
        if (answer.StatusCode is not (HttpStatusCode.Redirect or HttpStatusCode.SeeOther))
        {
            throw new InvalidOperationException($"{email} was not signed in: {(int)answer.StatusCode}");
        }
    }

    private static FormUrlEncodedContent Filled(string page, string? handler, IReadOnlyDictionary<string, string> fields)
    {
        var values = new Dictionary<string, string>();
        foreach (var input in InputTag().Matches(FormOf(page, handler)).Select(m => m.Value))
        {
            var sent = Attribute(input, "type") is not ("submit" or "button") && (Attribute(input, "type") is not ("checkbox" or "radio") || IsChecked(input));
            if (sent && Attribute(input, "name") is { } name)
            {
                values[name] = Attribute(input, "value") ?? "";
            }
        }

        foreach (var (name, value) in fields)
        {
            values[name] = value;
        }

        return new FormUrlEncodedContent(values);
    }

    private static string? ActionOf(string page, string? handler) =>
        Attribute(FormOf(page, handler).Split('>', 2)[0], "action") is { Length: > 0 } action ? action : null;

    private static string FormOf(string page, string? handler) => FormTag().Matches(page)
        .Select(m => m.Value)
        .FirstOrDefault(f => handler is null
            ? f.Contains("method=\"post\"", StringComparison.OrdinalIgnoreCase)
            : f.Contains($"value=\"{handler}\"", StringComparison.Ordinal))
        ?? throw new InvalidOperationException(handler is null ? "The page has no form to send." : $"The page has no form \"{handler}\".");

    private static string NameOf(string input) => Attribute(input, "name")!;

    private static bool IsChecked(string input) => CheckedWord().IsMatch(input);

    private static string? Attribute(string tag, string name) =>
        AttributeOf().Matches(tag).FirstOrDefault(m => m.Groups[1].Value.Equals(name, StringComparison.OrdinalIgnoreCase)) is { } found
            ? WebUtility.HtmlDecode(found.Groups[2].Value)
            : null;

    [GeneratedRegex("<form\\b.*?</form>", RegexOptions.Singleline | RegexOptions.IgnoreCase)]
    private static partial Regex FormTag();

    [GeneratedRegex("<input\\b[^>]*>", RegexOptions.IgnoreCase)]
    private static partial Regex InputTag();

    [GeneratedRegex("([\\w.:-]+)=\"([^\"]*)\"")]
    private static partial Regex AttributeOf();

    [GeneratedRegex("\\schecked[\\s/>=]", RegexOptions.IgnoreCase)]
    private static partial Regex CheckedWord();
}

using System.Net;
using System.Text.RegularExpressions;

namespace Tankside.Portal.Tests;

/// <summary>Fills in the portal's plain HTML forms the way a browser without scripts does.</summary>
public static partial class PortalHostForms
{
    /// <summary>
    /// Opens a page, fills in its form and sends it with everything that already stands in it, the anti-forgery token included.
    /// </summary>
    /// <param name="fields">Values by field name; they win over what the page filled in.</param>
    /// <param name="handler">The form's name; without one the first form is sent, which for a person signed in is that of the sign-out.</param>
    public static async Task<HttpResponseMessage> PostFormAsync(
        this HttpClient client, string address, IReadOnlyDictionary<string, string> fields, string? handler = null)
    {
        var send = await client.OpenFormAsync(address, fields, handler);
        return await send();
    }

    /// <summary>The same in two steps: the page is opened and filled in now, and sent when the answer is called.</summary>
    /// <param name="to">Where it is sent; the page says so without it.</param>
    public static async Task<Func<Task<HttpResponseMessage>>> OpenFormAsync(
        this HttpClient client, string address, IReadOnlyDictionary<string, string> fields, string? handler = null, string? to = null)
    {
        var form = FormOf(await client.GetStringAsync(address), handler);
        return () => client.PostAsync(to ?? ActionOf(form) ?? address, Filled(form, fields));
    }

    /// <summary>Signs in by the sign-in page; throws when the page does not let the person in.</summary>
    public static async Task SignInAsync(this HttpClient client, string email, string password)
    {
        var form = FormOf(await client.GetStringAsync("/sign-in"), null);
        var inputs = InputTag().Matches(form).Select(m => m.Value).ToList();
        var answer = await client.PostAsync("/sign-in", Filled(form, new Dictionary<string, string>
        {
            [Attribute(inputs.First(i => Attribute(i, "type") == "email"), "name")!] = email,
            [Attribute(inputs.First(i => Attribute(i, "type") == "password"), "name")!] = password,
        }));
        if (answer.StatusCode is not (HttpStatusCode.Redirect or HttpStatusCode.SeeOther))
        {
            throw new InvalidOperationException($"{email} was not signed in: {(int)answer.StatusCode}");
        }
    }

    private static FormUrlEncodedContent Filled(string form, IReadOnlyDictionary<string, string> fields)
    {
        var values = InputTag().Matches(form).Select(m => m.Value).Where(IsSent)
            .Select(input => (Name: Attribute(input, "name"), Value: Attribute(input, "value") ?? (IsTick(input) ? "on" : "")))
            .Concat(TextArea().Matches(form).Select(m => (Name: Attribute(m.Groups[1].Value, "name"), Value: WebUtility.HtmlDecode(m.Groups[2].Value))))
            .Concat(Select().Matches(form).Select(m => (Name: Attribute(m.Groups[1].Value, "name"), Value: Chosen(m.Groups[2].Value))))
            .Where(field => field.Name is not null && !fields.ContainsKey(field.Name))
            .Select(field => KeyValuePair.Create(field.Name!, field.Value));
        return new FormUrlEncodedContent([.. values, .. fields]);
    }

    private static bool IsSent(string input) =>
        Attribute(input, "type") is not ("submit" or "button" or "file") && (!IsTick(input) || CheckedWord().IsMatch(input));

    private static bool IsTick(string input) => Attribute(input, "type") is "checkbox" or "radio";

    /// <summary>The chosen option; the first where none is marked, as a browser does.</summary>
    private static string Chosen(string options)
    {
        var tags = OptionTag().Matches(options).Select(m => m.Value).ToList();
        return tags.Count == 0 ? "" : Attribute(tags.FirstOrDefault(t => SelectedWord().IsMatch(t)) ?? tags[0], "value") ?? "";
    }

    private static string? ActionOf(string form) => Attribute(form.Split('>', 2)[0], "action") is { Length: > 0 } action ? action : null;

    private static string FormOf(string page, string? handler) => FormTag().Matches(page)
        .Select(m => m.Value)
        .Where(f => f.Contains("method=\"post\"", StringComparison.OrdinalIgnoreCase))
        .FirstOrDefault(f => handler is null || f.Contains($"value=\"{handler}\"", StringComparison.Ordinal))
        ?? throw new InvalidOperationException(handler is null ? "The page has no form to send." : $"The page has no form \"{handler}\".");

    private static string? Attribute(string tag, string name) =>
        AttributeOf().Matches(tag).FirstOrDefault(m => m.Groups[1].Value.Equals(name, StringComparison.OrdinalIgnoreCase)) is { } found
            ? WebUtility.HtmlDecode(found.Groups[2].Value)
            : null;

    [GeneratedRegex("<form\\b.*?</form>", RegexOptions.Singleline | RegexOptions.IgnoreCase)]
    private static partial Regex FormTag();

    [GeneratedRegex("<input\\b[^>]*>", RegexOptions.IgnoreCase)]
    private static partial Regex InputTag();

    [GeneratedRegex("(<textarea\\b[^>]*>)\\n?(.*?)</textarea>", RegexOptions.Singleline | RegexOptions.IgnoreCase)]
    private static partial Regex TextArea();

    [GeneratedRegex("(<select\\b[^>]*>)(.*?)</select>", RegexOptions.Singleline | RegexOptions.IgnoreCase)]
    private static partial Regex Select();

    [GeneratedRegex("<option\\b[^>]*>", RegexOptions.IgnoreCase)]
    private static partial Regex OptionTag();

    [GeneratedRegex("([\\w.:-]+)=\"([^\"]*)\"")]
    private static partial Regex AttributeOf();

    [GeneratedRegex("\\schecked[\\s/>=]", RegexOptions.IgnoreCase)]
    private static partial Regex CheckedWord();

    [GeneratedRegex("\\sselected[\\s/>=]", RegexOptions.IgnoreCase)]
    private static partial Regex SelectedWord();
}

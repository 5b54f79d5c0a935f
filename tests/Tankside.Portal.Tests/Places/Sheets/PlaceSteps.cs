using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.RegularExpressions;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Places;

namespace Tankside.Portal.Tests.Places.Sheets;

/// <summary>Brings sheets of places in over the pages, as a browser without script does.</summary>
internal static partial class PlaceSteps
{
    /// <summary>Sends a sheet that must be taken; gives the address of its page.</summary>
    public static async Task<string> SendSheetAsync(this HttpClient client, string text, PlaceSheet? holds = null)
    {
        var answer = await client.TrySheetAsync(Encoding.UTF8.GetBytes(text), holds);
        return answer.Headers.Location?.ToString() is { } to
            ? new Uri(client.BaseAddress!, to).AbsolutePath
            : throw new InvalidOperationException("The sheet was not taken: " + WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync()));
    }

    /// <summary>Sends a sheet that must not be taken; gives the page that says why.</summary>
    public static async Task<string> RefusedSheetAsync(this HttpClient client, string text)
    {
        var answer = await client.TrySheetAsync(Encoding.UTF8.GetBytes(text), null);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        return WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync());
    }

    public static async Task<HttpResponseMessage> TrySheetAsync(this HttpClient client, byte[] content, PlaceSheet? holds)
    {
        var page = await client.GetStringAsync("/places/import");
        using var form = new MultipartFormDataContent
        {
            { new StringContent("sheet"), "_handler" },
            { new StringContent(Token().Match(page).Groups[1].Value), "__RequestVerificationToken" },
            { new StringContent(Guid.NewGuid().ToString()), "Input.Id" },
            { new StringContent($"{holds}"), "Input.Holds" },
        };
        var file = new ByteArrayContent(content);
        file.Headers.ContentType = new MediaTypeHeaderValue("application/octet-stream");
        form.Add(file, "Input.File", "places.csv");
        return await client.PostAsync("/places/import", form);
    }

    /// <summary>Presses the button of a form on an import's page, and reads the page that it leads to.</summary>
    public static async Task<string> PressAsync(this HttpClient client, string address, string form, params (string Field, string Value)[] fields) =>
        await client.ReadAnswerAsync(await client.PostFormAsync(address, fields.ToDictionary(f => f.Field, f => f.Value), form));

    public static async Task<string> ReadAnswerAsync(this HttpClient client, HttpResponseMessage answer)
    {
        Assert.True(answer.StatusCode is HttpStatusCode.Redirect or HttpStatusCode.SeeOther, $"the form answered {(int)answer.StatusCode}");
        return await client.ReadAsync(answer.Headers.Location!.ToString().Split('#')[0]);
    }

    public static async Task<string> ReadAsync(this HttpClient client, string address) => WebUtility.HtmlDecode(await client.GetStringAsync(address));

    /// <summary>From the file to what is stored.</summary>
    public static async Task<string> StoreSheetAsync(this HttpClient client, string text, PlaceSheet? holds = null)
    {
        var address = await client.SendSheetAsync(text, holds);
        await client.PressAsync(address, "store");
        return address;
    }

    public static async Task<PlaceImport> PlaceImportAsync(this PortalHost host, string address)
    {
        var id = Guid.Parse(address.Split('/')[^1]);
        await using var db = host.OpenDb();
        return await db.PlaceImports.AsNoTracking().SingleAsync(i => i.Id == id);
    }

    /// <summary>New, changed, unchanged, refused, as the page of a preview shows them.</summary>
    public static int[] Totals(string page) =>
        [.. TotalCell().Matches(page[page.IndexOf("What would become of the rows", StringComparison.Ordinal)..]).Take(4).Select(m => int.Parse(m.Groups[1].Value, System.Globalization.NumberStyles.AllowThousands, System.Globalization.CultureInfo.InvariantCulture))];

    [GeneratedRegex("name=\"__RequestVerificationToken\" value=\"([^\"]+)\"")]
    private static partial Regex Token();

    [GeneratedRegex("<td class=\"num\">([\\d,]+)</td>")]
    private static partial Regex TotalCell();
}

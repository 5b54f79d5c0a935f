using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.RegularExpressions;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Readings;

namespace Tankside.Portal.Tests.Readings.Sheets;

/// <summary>Brings sheets in over the pages, as a browser without script does.</summary>
internal static partial class SheetSteps
{
    /// <summary>Sends a file that must be taken; gives the address of its page.</summary>
    public static async Task<string> UploadAsync(this HttpClient client, string text, string name = "sheet.csv") =>
        (await client.SendFileAsync(Encoding.UTF8.GetBytes(text), name)).Headers.Location?.ToString() is { } to
            ? new Uri(client.BaseAddress!, to).AbsolutePath
            : throw new InvalidOperationException("The sheet was not taken.");

    public static async Task<HttpResponseMessage> SendFileAsync(this HttpClient client, byte[] content, string name)
    {
        var page = await client.GetStringAsync("/readings/import");
        using var form = new MultipartFormDataContent
        {
            { new StringContent("sheet"), "_handler" },
            { new StringContent(Token().Match(page).Groups[1].Value), "__RequestVerificationToken" },
            { new StringContent(Guid.NewGuid().ToString()), "Input.Id" },
        };
        var file = new ByteArrayContent(content);
        file.Headers.ContentType = new MediaTypeHeaderValue("application/octet-stream");
        form.Add(file, "Input.File", name);
        return await client.PostAsync("/readings/import", form);
    }

    /// <summary>Presses the button of a form on an import's page, and reads the page that it leads to.</summary>
    public static async Task<string> PressAsync(this HttpClient client, string address, string form, params (string Field, string Value)[] fields)
    {
        var answer = await client.PostFormAsync(address, fields.ToDictionary(f => f.Field, f => f.Value), form);
        Assert.True(answer.StatusCode is HttpStatusCode.Redirect or HttpStatusCode.SeeOther, $"{form} answered {(int)answer.StatusCode}");
        return await client.ReadPageAsync(answer.Headers.Location!.ToString().Split('#')[0]);
    }

    public static async Task<string> ReadPageAsync(this HttpClient client, string address) => WebUtility.HtmlDecode(await client.GetStringAsync(address));

    /// <summary>From the file to the stored readings.</summary>
    public static async Task<(string Address, ReadingImport Import)> ImportAsync(this PortalHost host, HttpClient client, string text)
    {
        var address = await client.UploadAsync(text);
        await client.PressAsync(address, "store");
        Assert.Equal(1, await host.StoreSheetsAsync());
        return (address, await host.ImportOfAsync(address));
    }

    public static async Task<ReadingImport> ImportOfAsync(this PortalHost host, string address)
    {
        var id = Guid.Parse(address.Split('/')[^1]);
        await using var db = host.OpenDb();
        return await db.ReadingImports.AsNoTracking().SingleAsync(i => i.Id == id);
    }

    /// <summary>Accepted, asked, there already, refused, blank; they must add up.</summary>
    public static (int Accepted, int Asked, int Duplicates, int Refused, int Blank) Counts(this ReadingImport import)
    {
        Assert.Equal(import.Rows, import.Accepted + import.Asked + import.Duplicates + import.Refused + import.Blank);
        Assert.Equal(import.Rows, import.Handled);
        return (import.Accepted, import.Asked, import.Duplicates, import.Refused, import.Blank);
    }

    [GeneratedRegex("name=\"__RequestVerificationToken\"[^>]*value=\"([^\"]+)\"")]
    private static partial Regex Token();
}

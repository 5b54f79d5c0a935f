using System.Globalization;
using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.RegularExpressions;
using Microsoft.EntityFrameworkCore;
using SkiaSharp;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Tests;

namespace Tankside.Load.Faults;

/// <summary>What people send as a file.</summary>
public static partial class FileDoors
{
    private const int RowsOfSheet = 120, TanksOfSheet = 30, RowsOfPlaces = 20;

    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    /// <summary>The sheet lies there, looked at; what is sent is the word to store it. A worker stores its rows afterwards.</summary>
    public static Door Import { get; } = new("readings import", async (place, number) =>
    {
        // A minute of the day of its own: the same time in two sheets is the same reading.
        var (hour, minute) = (8 + (number / 60 % 12), number % 60);
        var sheet = new StringBuilder("Tank,Date,Time,Water °F,Moving?\n");
        foreach (var i in Enumerable.Range(0, RowsOfSheet))
        {
            sheet.Append(CultureInfo.InvariantCulture, $"{ReadingDoors.TankOf(place, i % TanksOfSheet).Code},{DateTime.UtcNow.AddDays(-2 - (i / TanksOfSheet)):MM\\/dd\\/yyyy},{hour}:{minute:00},51,y\n");
        }

        var address = await UploadAsync(place.Coordinator, "/readings/import", sheet.ToString());
        var id = Guid.Parse(address.Split('/')[^1]);
        var send = await place.Coordinator.OpenFormAsync(address, new Dictionary<string, string>(), "store");
        return new Act(async () => await Sending.SendAsync(send, HttpStatusCode.Redirect) switch
        {
            // Sent again once it is stored, the word is answered by the page that says so.
            { IsStored: false } said when said.Words.Contains("rows stored", StringComparison.Ordinal) => said with { IsStored = true },
            var said => said,
        }, async db =>
        {
            for (var deadline = DateTime.UtcNow + Patience; ; await Task.Delay(200))
            {
                var import = await db.ReadingImports.AsNoTracking().SingleAsync(i => i.Id == id);
                var stored = await db.Readings.CountAsync(r => r.ImportId == id);
                if (import.State == ImportState.Done)
                {
                    // A row that another sheet brought already is counted there.
                    var all = import.Accepted + import.Asked;
                    return stored > all ? Stands.Twice : stored == all && all + import.Duplicates + import.Refused == RowsOfSheet ? Stands.Once : Stands.Half;
                }

                if (import.State != ImportState.Running || DateTime.UtcNow > deadline)
                {
                    return stored == 0 && import.State != ImportState.Running ? Stands.NotThere : Stands.Half;
                }
            }
        });
    }, IsSlow: true);

    public static Door Places { get; } = new("places import", async (place, number) =>
    {
        var mark = Guid.NewGuid().ToString("n")[..8];
        var sheet = new StringBuilder("School,Area,Opens,Closes\n");
        foreach (var i in Enumerable.Range(0, RowsOfPlaces))
        {
            sheet.Append(CultureInfo.InvariantCulture, $"Lane {mark} {i:00},river,8:00,15:00\n");
        }

        var address = await UploadAsync(place.Coordinator, "/places/import", sheet.ToString());
        var send = await place.Coordinator.OpenFormAsync(address, new Dictionary<string, string>(), "store");
        return new Act(() => Sending.SendAsync(send, HttpStatusCode.Redirect), async db =>
        {
            var begins = $"Lane {mark} ";
            return await db.Schools.CountAsync(s => s.Name.StartsWith(begins)) switch
            {
                0 => Stands.NotThere,
                RowsOfPlaces => Stands.Once,
                > RowsOfPlaces => Stands.Twice,
                _ => Stands.Half,
            };
        });
    });

    public static Door Photo { get; } = new("photo", async (place, number) =>
    {
        var page = $"/tanks/{ReadingDoors.TankOf(place, number).Code}/photos";
        var token = Token().Match(await place.Coordinator.GetStringAsync(page)).Groups[1].Value;
        var id = Guid.NewGuid();
        var picture = Picture();
        return new Act(
            () => Sending.SendAsync(
                () =>
                {
                    var form = Form("photo", token, id);
                    form.Add(new StringContent(nameof(Hatchery.Readings.PhotoOf.Tank)), "Input.Shows");
                    form.Add(new StringContent("true"), "Input.Looked");
                    form.Add(FileOf(picture, "image/jpeg"), "Input.Picture", "IMG_0001.jpg");
                    return place.Coordinator.PostAsync(page, form);
                },
                HttpStatusCode.Redirect),
            async db => await db.TankPhotos.CountAsync(p => p.Id == id) switch { 0 => Stands.NotThere, 1 => Stands.Once, _ => Stands.Twice });
    });

    private static async Task<string> UploadAsync(HttpClient client, string page, string sheet)
    {
        using var form = Form("sheet", Token().Match(await client.GetStringAsync(page)).Groups[1].Value, Guid.NewGuid());
        form.Add(FileOf(Encoding.UTF8.GetBytes(sheet), "application/octet-stream"), "Input.File", "sheet.csv");
        using var answer = await client.PostAsync(page, form);
        return answer.Headers.Location is { } to
            ? new Uri(client.BaseAddress!, to).AbsolutePath
            : throw new InvalidOperationException($"{page} did not take the sheet: {(int)answer.StatusCode}.");
    }

    private static MultipartFormDataContent Form(string handler, string token, Guid id) => new()
    {
        { new StringContent(handler), "_handler" },
        { new StringContent(token), "__RequestVerificationToken" },
        { new StringContent(id.ToString()), "Input.Id" },
    };

    private static ByteArrayContent FileOf(byte[] content, string type) => new(content) { Headers = { ContentType = new MediaTypeHeaderValue(type) } };

    /// <summary>Of noise, so that it is as large as a photo from a phone.</summary>
    private static byte[] Picture()
    {
        using var bitmap = new SKBitmap(800, 600);
        var random = new Random(1);
        for (var i = 0; i < bitmap.Width * bitmap.Height; i++)
        {
            bitmap.SetPixel(i % bitmap.Width, i / bitmap.Width, new SKColor((uint)random.Next() | 0xFF000000));
        }

        using var data = bitmap.Encode(SKEncodedImageFormat.Jpeg, 80);
        return data.ToArray();
    }

    [GeneratedRegex("name=\"__RequestVerificationToken\"[^>]*value=\"([^\"]+)\"")]
    private static partial Regex Token();
}

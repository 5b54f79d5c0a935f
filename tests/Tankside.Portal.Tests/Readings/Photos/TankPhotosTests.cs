using System.Net;
using System.Net.Http.Headers;
using System.Text.RegularExpressions;
using Microsoft.EntityFrameworkCore;
using SkiaSharp;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Readings.Photos;
using Tankside.Portal.Tests.Accounts;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Readings.Photos;

/// <summary>Photos of a tank on its page: sent, seen by those who may, taken down.</summary>
public partial class TankPhotosTests
{
    private const string Page = "/tanks/A001/photos";

    [Theory, BothDatabases]
    public async Task A_photo_is_kept_without_its_place_and_shown_with_who_sent_it(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var teacher = await host.ClientAs(Role.Teacher, world.One);
        Assert.Contains("No photo of A001 yet.", await teacher.WordsAsync(Page), StringComparison.Ordinal);

        var told = await SendAsync(teacher, CraftedPictures.WithPlace(400, 300), note: "Ice on the coil", shows: PhotoOf.Kit);

        Assert.Equal("The photo is kept, 300 by 400 dots, without place and time of taking.", await told.NoticeAsync());
        await using var db = host.OpenDb();
        var photo = await db.TankPhotos.SingleAsync();
        Assert.Equal((PhotoOf.Kit, host.Now, world.One.People[Role.Teacher].Id, "Ice on the coil"), (photo.Shows, photo.ReceivedAt, photo.SentBy, photo.Note));
        Assert.DoesNotContain((byte)0xE1, CraftedPictures.Markers(photo.Content));
        Assert.Contains("Kit , sent 3 February 2027, 08:15 by Teacher A: Ice on the coil", await told.WordsAsync(), StringComparison.Ordinal);
        using var picture = await teacher.GetAsync($"{Page}/{photo.Id}.jpg");
        Assert.Equal(("image/jpeg", "no-cache, private", "nosniff"), (
            picture.Content.Headers.ContentType!.MediaType, picture.Headers.CacheControl!.ToString(), picture.Headers.GetValues("X-Content-Type-Options").Single()));
        Assert.Equal(photo.Content, await picture.Content.ReadAsByteArrayAsync());
    }

    [Theory, BothDatabases]
    public async Task Nobody_but_the_adults_of_the_tank_sees_a_photo(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await SendAsync(await host.ClientAs(Role.Coordinator, world.One), CraftedPictures.Plain(40, 30, SKEncodedImageFormat.Png), page: "/tanks/A002/photos");
        await using var db = host.OpenDb();
        var picture = $"/tanks/A002/photos/{(await db.TankPhotos.SingleAsync()).Id}.jpg";

        foreach (var (role, expected) in new[] { (Role.ProgrammeLead, HttpStatusCode.OK), (Role.Coordinator, HttpStatusCode.OK), (Role.Teacher, HttpStatusCode.NotFound) })
        {
            var client = await host.ClientAs(role, world.One);
            Assert.Equal((expected, expected), ((await client.GetAsync(picture)).StatusCode, (await client.GetAsync("/tanks/A002/photos")).StatusCode));
        }

        foreach (var client in new[] { await host.ClientAs(Role.KitHand, world.One), await host.ClientAs(Role.AgencyContact, world.One), host.Anonymous() })
        {
            Assert.Equal(HttpStatusCode.Redirect, (await client.GetAsync(picture)).StatusCode);
        }

        Assert.Equal(HttpStatusCode.NotFound, (await (await host.ClientAs(Role.ProgrammeLead, world.Two)).GetAsync(picture)).StatusCode);
        // Under the address of a tank that one may see, the photo of another is not found either.
        Assert.Equal(HttpStatusCode.NotFound, (await (await host.ClientAs(Role.Teacher, world.One)).GetAsync(picture.Replace("A002", "A001", StringComparison.Ordinal))).StatusCode);
        Assert.DoesNotContain("photos", await host.Anonymous().GetStringAsync($"/t/{world.One.RoomCodes[1].Code}/tank"), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("not a picture", "We expected a JPEG, PNG or WebP file; nothing was stored.")]
    [InlineData("bomb", "at most 50 million fit")]
    [InlineData("too large", "at most 12 fit")]
    [InlineData("none", "Choose a picture")]
    [InlineData("not looked", "say that nobody is in it")]
    [InlineData("long note", "At most 1000 characters fit here; this has 1001.")]
    public async Task What_cannot_be_kept_is_told_at_its_field_and_nothing_is_stored(string what, string told)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        var teacher = await host.ClientAs(Role.Teacher, world.One);
        byte[] good = CraftedPictures.Plain(40, 30, SKEncodedImageFormat.Jpeg);

        var answer = what switch
        {
            "not a picture" => await SendAsync(teacher, "GIF89a"u8.ToArray()),
            "bomb" => await SendAsync(teacher, CraftedPictures.Bomb(30_000, 30_000)),
            "too large" => await SendAsync(teacher, new byte[TankPhotos.MostBytes + 1]),
            "none" => await SendAsync(teacher, []),
            "not looked" => await SendAsync(teacher, good, looked: false),
            _ => await SendAsync(teacher, good, note: new string('x', 1001)),
        };

        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Contains(told, await answer.WordsAsync(), StringComparison.Ordinal);
        await using var db = host.OpenDb();
        Assert.Empty(await db.TankPhotos.ToListAsync());
    }

    [Theory, BothDatabases]
    public async Task The_same_form_sent_twice_is_one_photo(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var teacher = await host.ClientAs(Role.Teacher, world.One);
        var seen = await teacher.GetStringAsync(Page);
        var picture = CraftedPictures.Plain(40, 30, SKEncodedImageFormat.Jpeg);

        await SendAsync(teacher, picture, seen: seen);
        var again = await SendAsync(teacher, picture, seen: seen);

        Assert.StartsWith("The photo is kept", (await again.NoticeAsync())!, StringComparison.Ordinal);
        await using var db = host.OpenDb();
        Assert.Equal(1, await db.TankPhotos.CountAsync());
    }

    [Theory, BothDatabases]
    public async Task A_photo_taken_down_is_emptied_and_found_by_nobody(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var teacher = await host.ClientAs(Role.Teacher, world.One);
        await SendAsync(teacher, CraftedPictures.Plain(40, 30, SKEncodedImageFormat.Jpeg));
        await using var db = host.OpenDb();
        var id = (await db.TankPhotos.AsNoTracking().SingleAsync()).Id;
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);

        var sent = await coordinator.PostFormAsync(Page, new Dictionary<string, string> { ["Removed"] = $"{id}" }, "take-down");

        Assert.Contains("The photo is taken down.", await coordinator.WordsAsync(sent.Headers.Location!.ToString()), StringComparison.Ordinal);
        var photo = await db.TankPhotos.AsNoTracking().SingleAsync();
        Assert.Equal((0, host.Now, world.One.People[Role.Coordinator].Id), (photo.Content.Length, photo.RemovedAt!.Value, photo.RemovedBy!.Value));
        Assert.Equal(HttpStatusCode.NotFound, (await teacher.GetAsync($"{Page}/{id}.jpg")).StatusCode);
        Assert.Contains("No photo of A001 yet.", await teacher.WordsAsync(Page), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task Another_schools_photo_is_not_taken_down_by_naming_it(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);
        var picture = CraftedPictures.Plain(40, 30, SKEncodedImageFormat.Jpeg);
        await SendAsync(coordinator, picture);
        await SendAsync(coordinator, picture, page: "/tanks/A002/photos");
        await using var db = host.OpenDb();
        var theirs = await db.TankPhotos.AsNoTracking().SingleAsync(p => p.TankId == world.One.Tanks[1].Id);

        await (await host.ClientAs(Role.Teacher, world.One)).PostFormAsync(Page, new Dictionary<string, string> { ["Removed"] = $"{theirs.Id}" }, "take-down");

        Assert.Equal(2, await db.TankPhotos.CountAsync(p => p.RemovedAt == null));
    }

    /// <summary>Fills in the form as a browser does and gives the page that answers.</summary>
    private static async Task<HttpResponseMessage> SendAsync(
        HttpClient client, byte[] picture, string? note = null, PhotoOf shows = PhotoOf.Tank, bool looked = true, string page = Page, string? seen = null)
    {
        seen ??= await client.GetStringAsync(page);
        using var form = new MultipartFormDataContent
        {
            { new StringContent("photo"), "_handler" },
            { new StringContent(Token().Match(seen).Groups[1].Value), "__RequestVerificationToken" },
            { new StringContent(Id().Match(seen).Groups[1].Value), "Input.Id" },
            { new StringContent(shows.ToString()), "Input.Shows" },
            { new StringContent(note ?? ""), "Input.Note" },
        };
        if (looked)
        {
            form.Add(new StringContent("true"), "Input.Looked");
        }

        var file = new ByteArrayContent(picture);
        file.Headers.ContentType = new MediaTypeHeaderValue("image/jpeg");
        form.Add(file, "Input.Picture", "IMG_0001.jpg");
        var sent = await client.PostAsync(page, form);
        return sent.Headers.Location is { } next ? await client.GetAsync(next) : sent;
    }

    [GeneratedRegex("name=\"__RequestVerificationToken\" value=\"([^\"]*)\"")]
    private static partial Regex Token();

    [GeneratedRegex("name=\"Input.Id\" value=\"([^\"]*)\"")]
    private static partial Regex Id();
}

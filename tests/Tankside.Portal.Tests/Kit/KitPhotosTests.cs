using System.Net;
using Microsoft.AspNetCore.Http;
using Microsoft.EntityFrameworkCore;
using SkiaSharp;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.Kit;
using Tankside.Portal.Tests.Readings.Photos;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Kit;

/// <summary>Photos of a piece of kit: drawn anew, seen by those who keep the register, taken down for good.</summary>
public class KitPhotosTests
{
    [Theory, BothDatabases]
    public async Task A_photo_is_drawn_anew_kept_once_and_emptied_when_it_is_taken_down(DatabaseKind kind)
    {
        await using var kit = await KitWorld.CreateAsync(kind);
        var item = await kit.ItemAsync("CH-1");
        var form = new KitPhotoForm { Id = Guid.NewGuid(), Picture = File(CraftedPictures.WithPlace(400, 300)), Note = "the plate", Looked = true };

        var (first, again) = (await AddAsync(kit, form), await AddAsync(kit, form));

        Assert.All([first, again], n => Assert.True(n.Notice!.Good));
        await using var db = kit.Host.OpenDb();
        var photo = await db.KitPhotos.AsNoTracking().SingleAsync();
        Assert.Equal((item.Id, kit.Hand.PersonId, "the plate", 300, 400), (photo.ItemId, photo.SentBy, photo.Note, photo.Width, photo.Height));
        Assert.DoesNotContain((byte)0xE1, CraftedPictures.Markers(photo.Content));
        var client = await kit.Host.ClientAs(Role.KitHand, kit.World.One);
        Assert.Equal(photo.Content, await client.GetByteArrayAsync($"/kit/CH-1/photos/{photo.Id}.jpg"));
        Assert.Equal(HttpStatusCode.NotFound, (await client.GetAsync($"/kit/SP-1/photos/{photo.Id}.jpg")).StatusCode);

        await client.PostFormAsync("/kit/CH-1/photos", new Dictionary<string, string> { ["Removed"] = $"{photo.Id}" }, "take-down");
        Assert.Equal(HttpStatusCode.NotFound, (await client.GetAsync($"/kit/CH-1/photos/{photo.Id}.jpg")).StatusCode);
        Assert.Empty((await db.KitPhotos.AsNoTracking().SingleAsync()).Content);
    }

    [Fact]
    public async Task What_is_no_picture_or_was_not_looked_at_is_refused_and_nothing_is_stored()
    {
        await using var kit = await KitWorld.CreateAsync(DatabaseKind.Sqlite);
        var good = CraftedPictures.Plain(40, 30, SKEncodedImageFormat.Png);
        (KitPhotoForm Form, string Why)[] wrong =
        [
            (new KitPhotoForm { Picture = File("GIF89a"u8.ToArray()), Looked = true }, "We expected a JPEG, PNG or WebP file"),
            (new KitPhotoForm { Looked = true }, "Choose a picture"),
            (new KitPhotoForm { Picture = File(good) }, "say that nobody is in it"),
        ];

        foreach (var (form, why) in wrong)
        {
            Assert.Contains(why, Assert.Single((await AddAsync(kit, form)).Refused), StringComparison.Ordinal);
        }

        await using var db = kit.Host.OpenDb();
        Assert.Equal(0, await db.KitPhotos.CountAsync());
    }

    private static FormFile File(byte[] bytes) => new(new MemoryStream(bytes), 0, bytes.Length, "Input.Picture", "IMG_0001.jpg");

    private static async Task<(Notice? Notice, List<string> Refused)> AddAsync(KitWorld kit, KitPhotoForm form)
    {
        var (item, refused) = (await kit.ItemAsync("CH-1"), new List<string>());
        var notice = await kit.Host.CallAsync<KitPhotos, Notice?>(p => p.AddAsync(kit.Hand, item, form, (_, why) => refused.Add(why), CancellationToken.None));
        return (notice, refused);
    }
}

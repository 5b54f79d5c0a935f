using System.Net;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Readings;

/// <summary>An adult mends a reading on a page; what was sent first is kept.</summary>
public class CorrectingFormTests
{
    [Theory, BothDatabases]
    public async Task A_teacher_finds_the_reading_filled_in_and_mends_it(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var tank = world.One.Tanks[0];
        var wrong = Sent.Typed(tank, host.Now.AddHours(-2), "51,5", 51.5, TemperatureUnit.F) with { Seen = new Observation { Moving = true, DeadEggs = 12, Hatched = Share.Half } };
        await host.AcceptAsync(wrong);
        var teacher = await host.ClientAs(Role.Teacher, world.One);
        var address = $"/tanks/{tank.Code}/reading?corrects={wrong.SenderId}";

        Assert.Contains(address, await teacher.GetStringAsync($"/tanks/{tank.Code}"), StringComparison.Ordinal);
        var page = WebUtility.HtmlDecode(await teacher.GetStringAsync(address));
        Assert.Contains("You correct the reading of Wednesday 3 February", page, StringComparison.Ordinal);
        Assert.All(["value=\"51,5\"", "value=\"12\"", "value=\"half\" selected"], part => Assert.Contains(part, page, StringComparison.Ordinal));
        Assert.DoesNotContain("readAt", page, StringComparison.Ordinal);

        var sent = await teacher.PostFormAsync(address, new Dictionary<string, string>
        {
            ["water"] = "51.5",
            ["unit"] = "F",
            ["moving"] = "true",
            ["deadEggs"] = "2",
            ["hatched"] = "half",
        });

        Assert.Equal(HttpStatusCode.SeeOther, sent.StatusCode);
        await using var db = host.OpenDb();
        var (old, now) = (await db.Readings.SingleAsync(r => r.SenderId == wrong.SenderId), await db.Readings.SingleAsync(r => r.Corrects != null));
        Assert.Equal((now.SenderId, 12), (old.CorrectedBy, old.Seen.DeadEggs));
        Assert.Equal((old.At, wrong.SenderId, 2, Share.Half, ReadingSource.Person), (now.At, now.Corrects, now.Seen.DeadEggs, now.Seen.Hatched, now.Source));
        Assert.Equal(world.One.People[Role.Teacher].Id, now.EnteredBy);
    }

    [Fact]
    public async Task What_was_corrected_already_is_not_offered_again()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        var tank = world.One.Tanks[0];
        var first = Sent.Water(tank, host.Now.AddHours(-2), 10);
        await host.AcceptAsync(first, Sent.Water(tank, host.Now.AddHours(-2), 9.5) with { Corrects = first.SenderId });
        var teacher = await host.ClientAs(Role.Teacher, world.One);

        Assert.DoesNotContain($"corrects={first.SenderId}", await teacher.GetStringAsync($"/tanks/{tank.Code}"), StringComparison.Ordinal);
        Assert.DoesNotContain("You correct", await teacher.GetStringAsync($"/tanks/{tank.Code}/reading?corrects={first.SenderId}"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_class_corrects_nothing_by_its_label()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        var first = Sent.Water(world.One.Tanks[0], host.Now.AddHours(-2), 10);
        await host.AcceptAsync(first);

        await host.Anonymous().PostAsync($"/t/{world.One.RoomCodes[0].Code}", new FormUrlEncodedContent(new Dictionary<string, string>
        {
            ["id"] = Guid.NewGuid().ToString(),
            ["water"] = "51",
            ["unit"] = "F",
            ["corrects"] = first.SenderId.ToString(),
        }));

        await using var db = host.OpenDb();
        Assert.Equal(2, await db.Readings.CountAsync(r => r.Corrects == null && r.CorrectedBy == null));
    }
}

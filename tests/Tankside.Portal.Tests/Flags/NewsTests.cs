using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Kit;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Hatchery.Releases.Bookings;
using Tankside.Portal.Tests.Readings;
using Tankside.Portal.Tests.Releases;
using Tankside.Portal.Tests.Releases.Bookings;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Flags;

/// <summary>Each reads what others did that is theirs to know, once, and nobody their own deeds.</summary>
public class NewsTests
{
    [Theory, BothDatabases]
    public async Task What_others_did_is_new_until_it_is_read_and_only_for_those_whom_it_concerns(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var one = world.One;
        var (teacher, coordinator) = (one.People[Role.Teacher].Id, one.People[Role.Coordinator].Id);
        var booking = BookingSteps.Settled(one);
        var pump = new KitItem { Id = Guid.NewGuid(), ProgrammeId = one.Programme.Id, Kind = KitKind.Pump, Serial = "PU-7", Make = "Fenwick", Condition = KitCondition.Faulty, Acts = 1 };
        await host.SeedAsync(db =>
        {
            db.AddRange(booking, pump);
            db.Add(new BookingAct { Id = Guid.NewGuid(), BookingId = booking.Id, At = host.Now.AddHours(-2), By = coordinator, Deed = BookingDeed.Settled });
            db.Add(new TankPhoto { Id = Guid.NewGuid(), TankId = one.Tanks[0].Id, ReceivedAt = host.Now.AddHours(-3), SentBy = teacher, Content = [0xFF, 0xD8] });
            db.Add(new TankPhoto { Id = Guid.NewGuid(), TankId = one.Tanks[1].Id, ReceivedAt = host.Now.AddDays(-20), SentBy = teacher, Content = [0xFF, 0xD8] });
            db.Add(new KitAct { ItemId = pump.Id, Number = 1, SenderId = Guid.NewGuid(), Kind = KitActKind.Fault, At = host.Now.AddHours(-4), By = coordinator, Before = KitCondition.Working, After = KitCondition.Faulty });
        });
        await host.AcceptAsync(Sent.Water(one.Tanks[0], host.Now, 16));
        await host.JudgeAsync();

        var ofTeacher = await (await host.ClientAs(Role.Teacher, one)).ReadAsync("/news");
        Assert.Contains("A001: warm water was noticed", ofTeacher, StringComparison.Ordinal);
        Assert.Contains("Release day of Birch Lane School: settled", ofTeacher, StringComparison.Ordinal);
        Assert.DoesNotContain("a photo came", ofTeacher, StringComparison.Ordinal);
        Assert.DoesNotContain("PU-7", ofTeacher, StringComparison.Ordinal);

        var ring = await host.ClientAs(Role.Coordinator, one);
        var ofCoordinator = await ring.ReadAsync("/news");
        Assert.Contains("1 thing is new.", ofCoordinator, StringComparison.Ordinal);
        Assert.Contains("A001: a photo came", ofCoordinator, StringComparison.Ordinal);
        Assert.DoesNotContain("A002", ofCoordinator, StringComparison.Ordinal);
        Assert.Contains("PU-7 is faulty", await (await host.ClientAs(Role.KitHand, one)).ReadAsync("/news"), StringComparison.Ordinal);
        Assert.Contains("Release day of Birch Lane School: settled", await (await host.ClientAs(Role.AgencyContact, one)).ReadAsync("/news"), StringComparison.Ordinal);
        Assert.Contains("Nothing happened of late.", await (await host.ClientAs(Role.ProgrammeLead, world.Two)).ReadAsync("/news"), StringComparison.Ordinal);

        Assert.Contains("1 thing is new since you last looked", await ring.ReadAsync("/"), StringComparison.Ordinal);
        await ring.SendAsync("/news", new() { ["Input.Until"] = "" }, "read");
        Assert.Contains("Nothing is new since you last looked.", await ring.ReadAsync("/news"), StringComparison.Ordinal);
        Assert.DoesNotContain("is new since you last looked", await ring.ReadAsync("/"), StringComparison.Ordinal);

        // What came after the page was shown is not read with it, and an older press takes nothing back.
        var shown = host.Now;
        host.Time.Advance(TimeSpan.FromMinutes(10));
        await host.SeedAsync(db => db.Add(new TankPhoto { Id = Guid.NewGuid(), TankId = one.Tanks[0].Id, ReceivedAt = host.Now.AddMinutes(-1), SentBy = teacher, Content = [0xFF, 0xD8] }));
        await ring.SendAsync("/news", new() { ["Input.Until"] = shown.ToString("o") }, "read");
        Assert.Contains("1 thing is new.", await ring.ReadAsync("/news"), StringComparison.Ordinal);
        await using var db = host.OpenDb();
        Assert.Equal(coordinator, (await db.NewsSeen.SingleAsync()).PersonId);
    }
}

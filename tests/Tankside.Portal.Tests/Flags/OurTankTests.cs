using System.Net;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Flags;
using Tankside.Portal.Flags.FirstAidTexts;
using Tankside.Portal.Tests.Readings;
using Tankside.Science.Eggs;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Flags;

/// <summary>The page of one tank: for whom it exists, and that it says what the rules say.</summary>
public class OurTankTests
{
    private static readonly Observation Hatched = new() { Hatched = Share.Half };

    [Theory, BothDatabases]
    public async Task A_tank_exists_only_for_those_who_look_after_it(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var teacher = await host.ClientAs(Role.Teacher, world.One);

        Assert.Equal(HttpStatusCode.OK, (await teacher.GetAsync("/tanks/A001")).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await teacher.GetAsync("/tanks/A002")).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await teacher.GetAsync("/tanks/A999")).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await (await host.ClientAs(Role.Coordinator, world.Two)).GetAsync("/tanks/A001")).StatusCode);
        foreach (var role in new[] { Role.Coordinator, Role.ProgrammeLead, Role.KitHand })
        {
            Assert.Equal(HttpStatusCode.OK, (await (await host.ClientAs(role, world.One)).GetAsync("/tanks/A002")).StatusCode);
        }

        await (await host.ClientAs(Role.AgencyContact, world.One)).AssertNotTheirsAsync("/tanks/A001");
        Assert.Equal("/sign-in", (await host.Anonymous().GetAsync("/tanks/A001")).Headers.Location?.AbsolutePath);
    }

    [Theory, BothDatabases]
    public async Task The_page_says_what_the_rules_say(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await host.AcceptAsync([.. Enumerable.Range(0, 12).Select(d => Sent.Water(world.One.Tanks[0], host.Now.AddDays(-d), 10 + (d % 3 * 0.2)))]);
        await host.JudgeAsync();

        var page = await (await host.ClientAs(Role.Teacher, world.One)).ReadAsync("/tanks/A001");

        await using var db = host.OpenDb();
        var record = Assert.Single(await TankRecords.LoadAsync(db, [world.One.Tanks[0].Id], host.Now, CancellationToken.None));
        var development = TankDevelopment.On(new DateOnly(2027, 2, 3), record.Lot!, record.Days, record.Tank.SetPointC);
        var time = new TimeWords(record.Calendar.Clock, host.Now);
        var words = StageWords.Of(record.Lot!, development, record.Days, time, StageNames.Standard);
        Assert.Contains(words.Next, page, StringComparison.Ordinal);
        Assert.Contains($"{words.Place} In the tank: about 148 rainbow trout of lot L1.", page, StringComparison.Ordinal);
        Assert.Contains($"{new ScaleWords(TemperatureUnit.F).Both(development.ThermalUnits).Replace('\u00A0', ' ')} above freezing since Sun 20 December", page, StringComparison.Ordinal);
        Assert.Contains($"likely {time.Day(development.SwimUp!.Mid)}", page, StringComparison.Ordinal);
        Assert.Contains(development.Hatch!.Model.Source, page, StringComparison.Ordinal);
        var onTheWay = development.SwimUp.Way!.Until(new DateOnly(2027, 2, 3))[^1].At;
        Assert.Equal(development.SwimUp.Fraction, onTheWay.Fraction, 9);
        Assert.Contains($"Wed 3 Feb {onTheWay.Fraction * 100:0}% {onTheWay.Within80.Low * 100:0}% – {onTheWay.Within80.High * 100:0}%", page, StringComparison.Ordinal);
        Assert.Contains("50 °F (10 °C) today 08:15, just now", page, StringComparison.Ordinal);
        Assert.Contains("148 Still in the tank", page, StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_teacher_reads_the_reason_and_what_to_do_first(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await host.AcceptAsync(Sent.Water(world.One.Tanks[0], host.Now.AddHours(-3), 10.5), Sent.Water(world.One.Tanks[0], host.Now.AddHours(-1), 12) with { Seen = Hatched });
        await host.JudgeAsync();

        var page = await (await host.ClientAs(Role.Teacher, world.One)).ReadAsync("/tanks/A001");

        var flag = Assert.Single(await host.FlagsAsync(FlagKind.WarmingFast));
        var calendar = new SchoolCalendar(ProgrammeClock.Of(world.One.Programme.TimeZone), new TimeOnly(8, 0), new TimeOnly(15, 15), []);
        Assert.Contains("One thing is wrong", page, StringComparison.Ordinal);
        Assert.Contains(new ReasonWords(calendar, 148, host.Now).Of(flag.AsFinding()), page, StringComparison.Ordinal);
        var aid = FirstAid.For(flag.AsFinding(), new AidTank { Disinfectant = Disinfectant.Chlorine }, "en");
        Assert.All([.. aid.Say, .. aid.Cautions, aid.AskNext], sentence => Assert.Contains(sentence, page, StringComparison.Ordinal));
        Assert.Contains("The hours ahead if nobody acts", page, StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task What_was_typed_stands_beside_what_was_understood_only_where_they_differ(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await host.AcceptAsync(Sent.Typed(world.One.Tanks[0], host.Now.AddHours(-2), "51,5", 51.5, TemperatureUnit.F));
        await host.RecordAsync(Sent.Typed(world.One.Tanks[0], host.Now.AddHours(-1), "52", 52, TemperatureUnit.C));

        var page = await (await host.ClientAs(Role.Teacher, world.One)).ReadAsync("/tanks/A001");

        Assert.Contains("51.5 °F (10.8 °C)", page, StringComparison.Ordinal);
        Assert.DoesNotContain("typed 51,5", page, StringComparison.Ordinal);
        Assert.Contains("typed 52 °C", page, StringComparison.Ordinal);
        Assert.Contains("asked, not judged", page, StringComparison.Ordinal);
        Assert.Contains("One reading waits for somebody to say what was meant", page, StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task What_nobody_can_explain_is_shown_also_when_it_is_negative(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await host.SeedAsync(db => db.Add(new LedgerEntry
        {
            SeasonId = world.One.Season.Id,
            TankId = world.One.Tanks[0].Id,
            Kind = LedgerKind.Counted,
            Count = 160,
            At = host.Now,
            EnteredAt = host.Now,
        }));

        var page = await (await host.ClientAs(Role.Teacher, world.One)).ReadAsync("/tanks/A001");

        Assert.Contains("160 Still in the tank", page, StringComparison.Ordinal);
        Assert.Contains("−12 Unaccounted", page, StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task An_empty_tank_and_an_unknown_species_say_what_is_missing(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await host.SeedAsync(db => db.Add(new Tank
        {
            Id = Guid.NewGuid(),
            ProgrammeId = world.One.Programme.Id,
            ClassroomId = world.One.Rooms[0].Id,
            Code = "A003",
            Litres = 208,
            SetPointC = 10.5,
        }));
        await using (var db = host.OpenDb())
        {
            (await db.EggLots.SingleAsync(l => l.Id == world.One.Lot.Id)).Species = Species.CutthroatTrout;
            await db.SaveChangesAsync();
        }

        var teacher = await host.ClientAs(Role.Teacher, world.One);

        var empty = await teacher.ReadAsync("/tanks/A003");
        Assert.Contains("No eggs have come to this tank yet.", empty, StringComparison.Ordinal);
        Assert.Contains("Nobody has read this tank yet.", empty, StringComparison.Ordinal);
        Assert.Contains("No published development model is known for cutthroat trout", await teacher.ReadAsync("/tanks/A001"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task The_room_code_is_for_those_who_hand_out_labels(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var label = world.One.RoomCodes[0].Code;

        Assert.Contains(label, await (await host.ClientAs(Role.Teacher, world.One)).ReadAsync("/tanks/A001"), StringComparison.Ordinal);
        Assert.DoesNotContain(label, await (await host.ClientAs(Role.KitHand, world.One)).ReadAsync("/tanks/A001"), StringComparison.Ordinal);
    }
}

using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Releases;
using Tankside.Science.Eggs;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Process.Tests;

/// <summary>Two portal processes on one PostgreSQL with a real mail server: each tank judged once, each mail sent once, both in step.</summary>
public sealed class TwoPortalsTests : IAsyncLifetime
{
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(3);

    private readonly TestWorld world = new();
    private string key = "";
    private readonly MailServer mail = new();
    private TestDatabase database = null!;
    private Installation installation = null!;

    public async Task InitializeAsync()
    {
        if (Missing.Skips(PostgresServer.WhyUnavailable) is null)
        {
            database = await TestDatabase.CreateAsync(DatabaseKind.PostgreSQL);
            installation = Installation.On(database);
            foreach (var (key, value) in mail.Keys)
            {
                installation.Settings[key.Replace(":", "__", StringComparison.Ordinal)] = value;
            }
        }
    }

    public async Task DisposeAsync()
    {
        installation?.Dispose();
        await mail.DisposeAsync();
        if (database is not null)
        {
            await database.DisposeAsync();
        }
    }

    [PostgresFact]
    public async Task Each_tank_is_judged_once_each_mail_sent_once_and_both_portals_agree()
    {
        var tanks = await SeedAsync();
        using var first = await installation.ServeAsync();
        using var second = await installation.ServeAsync();

        // Every tank's reading goes to both portals at once, and twice.
        await Task.WhenAll(tanks.SelectMany((tank, i) =>
        {
            var reading = new { id = Guid.NewGuid(), tank = tank.Code, at = DateTimeOffset.UtcNow.AddMinutes(-5), waterC = 16.5, moving = false, bubbles = false };
            return new[] { first, second, first, second }.Select(portal => PostAsync(portal, reading));
        }));
        await AllJudgedAsync();
        await DigestDueNowAsync();
        await MailsDoneAsync(tanks, digests: true);

        await AssertOpenedOnceAsync(tanks);
        AssertMailedOnce(tanks);
        Assert.Equal(2, mail.All.Count(IsDigest));
        Assert.Equal(2, mail.All.Where(IsDigest).Select(m => m.To.ToString()).Distinct().Count());
        Assert.Equal(await FlagsAsync(first), await FlagsAsync(second));
    }

    [PostgresFact]
    public async Task A_portal_killed_while_letters_wait_loses_none_and_doubles_none()
    {
        var tanks = await SeedAsync();
        using var first = await installation.ServeAsync();
        using var second = await installation.ServeAsync();
        mail.Mood = MailServerMood.Refuses;
        foreach (var tank in tanks)
        {
            await PostAsync(first, new { id = Guid.NewGuid(), tank = tank.Code, at = DateTimeOffset.UtcNow.AddMinutes(-5), waterC = 16.5, moving = false, bubbles = false });
        }

        await AllJudgedAsync();
        await LookAsync("every tank has its letter, refused once", async db =>
            await LettersAsync(db) is var letters && TanksIn(letters).Count() == tanks.Count && letters.All(l => l is { State: LetterState.Waiting, Attempts: > 0 }));
        await first.KillAsync();
        mail.Mood = MailServerMood.Takes;
        await DueNowAsync();
        await MailsDoneAsync(tanks, digests: false);

        AssertMailedOnce(tanks);
        await AssertOpenedOnceAsync(tanks);
        Assert.Equal(HttpStatusCode.OK, (await second.Client.GetAsync("/health/live")).StatusCode);
    }

    /// <summary>A programme with a dozen tanks of alevins, in a place where it is eight in the morning; the digest is set to the evening.</summary>
    private async Task<IReadOnlyList<Tank>> SeedAsync()
    {
        var hours = (8 - DateTime.UtcNow.Hour + 36) % 24 - 12;
        world.One.Programme.TimeZone = hours == 0 ? "Etc/UTC" : $"Etc/GMT{(hours > 0 ? "-" : "+")}{Math.Abs(hours)}";
        world.One.Programme.DigestAt = new TimeOnly(20, 0);
        await using var db = database.CreateDbContext();
        world.One.AddTo(db);
        await db.SaveChangesAsync();

        // The made-up world stands in a year of its own; these portals run by the real clock.
        await db.Receipts.ExecuteDeleteAsync();
        await db.Ledger.ExecuteDeleteAsync();
        var (delivered, spawned) = (DateTime.UtcNow.AddDays(-19), DateOnly.FromDateTime(DateTime.UtcNow.AddDays(-45)));
        var lot = new EggLot
        {
            Id = Guid.NewGuid(),
            ProgrammeId = world.One.Programme.Id,
            SeasonId = world.One.Season.Id,
            Code = "L9",
            Species = Species.RainbowTrout,
            FertilisedFrom = spawned,
            FertilisedTo = spawned,
            HatcheryMeanC = 9,
        };
        List<Tank> tanks = [.. world.One.Tanks, .. Enumerable.Range(3, 10).Select(NewTank)];
        db.AddRange(tanks.Skip(world.One.Tanks.Length));
        db.Add(lot);
        db.AddRange(tanks.Select(t => new Receipt
        {
            Id = Guid.NewGuid(),
            SeasonId = world.One.Season.Id,
            TankId = t.Id,
            LotId = lot.Id,
            At = delivered,
            Run = "R1",
            Eggs = 150,
            DeadOnArrival = 0,
            CountedBy = CountMethod.Photo,
        }));
        db.AddRange(tanks.Select(t => new LedgerEntry
        {
            SeasonId = world.One.Season.Id,
            TankId = t.Id,
            Kind = LedgerKind.Received,
            Count = 150,
            At = delivered,
            EnteredAt = delivered,
        }));
        await db.SaveChangesAsync();
        key = (await installation.RunAsync("key", "new", "--role", "logger", "--tanks", "all")).Good().Output.Trim();
        return tanks;
    }

    private Tank NewTank(int number) => new()
    {
        Id = Guid.NewGuid(),
        ProgrammeId = world.One.Programme.Id,
        ClassroomId = world.One.Rooms[number % 2].Id,
        Code = $"A{number:000}",
        Litres = 208,
        SetPointC = 10.5,
    };

    private async Task PostAsync(ServedPortal portal, object reading)
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, "/api/v1/readings") { Content = JsonContent.Create(new { readings = new[] { reading } }) };
        request.Headers.Authorization = new AuthenticationHeaderValue("Bearer", key);
        using var answer = await portal.Client.SendAsync(request);
        var counts = await answer.Content.ReadFromJsonAsync<JsonElement>();
        Assert.Equal(1, counts.GetProperty("accepted").GetInt32() + counts.GetProperty("duplicates").GetInt32());
    }

    private Task AllJudgedAsync() => LookAsync("every fact is judged", async db => !await db.UnjudgedFacts.AnyAsync());

    /// <summary>The hour of the morning mail is the minute that has just begun.</summary>
    private async Task DigestDueNowAsync()
    {
        await using var db = database.CreateDbContext();
        var programme = await db.Programmes.SingleAsync(p => p.Id == world.One.Programme.Id);
        var local = ProgrammeClock.Of(programme.TimeZone).Local(DateTime.UtcNow);
        programme.DigestAt = new TimeOnly(local.Hour, local.Minute);
        await db.SaveChangesAsync();
    }

    /// <summary>Ends the wait after a failure.</summary>
    private async Task DueNowAsync()
    {
        await using var db = database.CreateDbContext();
        var now = DateTime.UtcNow;
        await db.OutgoingLetters.Where(l => l.State == LetterState.Waiting)
            .ExecuteUpdateAsync(l => l.SetProperty(x => x.NotBefore, now).SetProperty(x => x.Version, x => x.Version + 1));
    }

    private Task MailsDoneAsync(IReadOnlyList<Tank> tanks, bool digests) => LookAsync("every letter is sent", async db =>
    {
        var letters = await LettersAsync(db);
        return letters.Count > 0 && TanksIn(letters).Count() == tanks.Count
            && letters.All(l => l.State is LetterState.Sent)
            && (!digests || letters.Count(l => l.Key.StartsWith("digest", StringComparison.Ordinal)) == 2);
    });

    private static Task<List<OutgoingLetter>> LettersAsync(HatcheryDb db) => db.OutgoingLetters.AsNoTracking().ToListAsync();

    private static IEnumerable<string> TanksIn(IEnumerable<OutgoingLetter> letters) =>
        letters.Where(l => l.Key.StartsWith("urgent", StringComparison.Ordinal)).SelectMany(l => l.Key.Split(' ')[2].Split(','));

    private async Task AssertOpenedOnceAsync(IReadOnlyList<Tank> tanks)
    {
        await using var db = database.CreateDbContext();
        var flags = await db.Flags.AsNoTracking().Where(f => f.TankId != null).ToListAsync();
        Assert.Equal(flags.Count, flags.Select(f => (f.TankId, f.Kind)).Distinct().Count());
        Assert.Superset(flags.Where(f => f.Urgency == Urgency.ActNow).Select(f => f.TankId).ToHashSet(), tanks.Select(t => (Guid?)t.Id).ToHashSet());
        var opened = await db.FlagEvents.Where(e => e.Deed == FlagDeed.Opened).Select(e => e.FlagId).ToListAsync();
        Assert.Equal(await db.Flags.CountAsync(), opened.Count);
        Assert.Equal(opened.Count, opened.Distinct().Count());
    }

    /// <summary>No letter reached the server twice, and the coordinator was told of each tank once.</summary>
    private void AssertMailedOnce(IReadOnlyList<Tank> tanks)
    {
        var ids = mail.All.Select(m => m.MessageId).ToList();
        Assert.Equal(ids.Count, ids.Distinct().Count());
        var urgent = mail.All.Where(m => !IsDigest(m)).ToList();
        Assert.All(urgent, m => Assert.Equal(world.One.EmailOf(Role.Coordinator), m.To.Mailboxes.Single().Address));
        var told = urgent.SelectMany(m => m.TextBody!.Split('\n').Where(l => l.Contains("round?tank=", StringComparison.Ordinal)).Select(l => l.Trim().Split('=')[1]));
        Assert.Equal(tanks.Select(t => t.Code).Order(), told.Order());
    }

    private static bool IsDigest(MimeKit.MimeMessage message) => message.Subject?.Contains("this morning", StringComparison.Ordinal) == true;

    /// <summary>Without their places: equal tanks change places as their hours run out between the two questions.</summary>
    private async Task<IEnumerable<string>> FlagsAsync(ServedPortal portal)
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, "/api/v1/flags");
        request.Headers.Authorization = new AuthenticationHeaderValue("Bearer", world.One.CoordinatorKey);
        using var answer = await portal.Client.SendAsync(request);
        var flags = await answer.Content.ReadFromJsonAsync<JsonElement>();
        var list = flags.ValueKind == JsonValueKind.Array ? flags : flags.GetProperty("flags");
        return [.. list.EnumerateArray().Select(f => $"{f.GetProperty("id")} {f.GetProperty("kind")} {f.GetProperty("tank")} {f.GetProperty("state")}").Order(StringComparer.Ordinal)];
    }

    private async Task LookAsync(string what, Func<HatcheryDb, Task<bool>> there)
    {
        for (var deadline = DateTime.UtcNow + Patience; ; await Task.Delay(50))
        {
            await using var db = database.CreateDbContext();
            if (await there(db))
            {
                return;
            }

            Assert.True(DateTime.UtcNow < deadline, $"Not in time: {what}.");
        }
    }
}

using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Portal.Accounts.Mail;
using Tankside.Portal.Digests;
using Tankside.Portal.Tests.Accounts;
using Tankside.Portal.Tests.Flags;
using Tankside.Portal.Tests.Readings;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Digests;

/// <summary>A mail at once for what cannot wait; at most one a tank and hour.</summary>
public class UrgentLettersTests
{
    [Theory, BothDatabases]
    public async Task A_tank_that_cannot_wait_is_mailed_to_the_coordinator_at_once(DatabaseKind kind)
    {
        await using var server = new MailServer();
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, new PortalHostSettings { Keys = server.Keys });
        await using var _ = host;
        await WarmAsync(host, world.One.Tanks[0], 16);

        await host.SendLettersAsync();

        var mail = Assert.Single(server.All);
        Assert.Equal(world.One.EmailOf(Role.Coordinator), Assert.Single(mail.To.Mailboxes).Address);
        Assert.Equal("Act now: Birch Lane School, Room 1 (A001)", mail.Subject);
        Assert.Contains("60.8 °F (16.0 °C)", mail.TextBody, StringComparison.Ordinal);
        Assert.Contains($"{PortalHost.PublicUrl}round?tank=A001", mail.TextBody, StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task What_can_wait_until_later_today_is_not_mailed_and_is_once_it_cannot(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await WarmAsync(host, world.One.Tanks[0], 13);
        Assert.Empty(await host.LettersAsync());

        host.Time.Advance(TimeSpan.FromHours(2));
        await WarmAsync(host, world.One.Tanks[0], 16);

        Assert.Equal(LetterState.Waiting, Assert.Single(await host.LettersAsync()).State);
    }

    [Theory, BothDatabases]
    public async Task A_second_trouble_within_the_hour_is_told_when_the_hour_is_over(DatabaseKind kind)
    {
        var sink = new MailSink();
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, sink.Settings);
        await using var _ = host;
        var tank = world.One.Tanks[0];
        await WarmAsync(host, tank, 16);
        await host.SendLettersAsync();
        var first = host.Now;

        host.Time.Advance(TimeSpan.FromMinutes(20));
        await host.AcceptAsync(Sent.Seen(tank, host.Now, new() { Moving = false, Bubbles = false }));
        await host.JudgeAsync();
        Assert.Equal(0, await host.SendLettersAsync());
        Assert.Equal(Urgency.ActNow, Assert.Single(await host.FlagsAsync(FlagKind.PumpFault)).Urgency);
        Assert.Equal(first.AddHours(1), Assert.Single(await host.LettersAsync(), l => l.State == LetterState.Waiting).NotBefore);

        host.Time.Advance(TimeSpan.FromMinutes(40));
        Assert.Equal(1, await host.SendLettersAsync());

        Assert.Equal([LetterState.Sent, LetterState.Sent], (await host.LettersAsync()).Select(l => l.State));
    }

    [Theory, BothDatabases]
    public async Task Tanks_in_trouble_together_stand_in_one_mail(DatabaseKind kind)
    {
        var sink = new MailSink();
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, sink.Settings);
        await using var _ = host;
        await host.AcceptAsync([.. world.One.Tanks.Select(t => Sent.Water(t, host.Now.AddMinutes(-5), 16))]);
        await host.JudgeAsync();

        Assert.Equal(1, await host.SendLettersAsync());

        var mail = await sink.NextAsync();
        Assert.Equal(["A001", "A002"], mail.Subject["Act now: ".Length..].Split(", ").Order());
        Assert.StartsWith("2 tanks cannot wait.", mail.Text, StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task After_a_quiet_night_a_trouble_that_somebody_took_is_not_mailed(DatabaseKind kind)
    {
        var (host, world, ends) = await QuietAsync(kind, new MailSink());
        await using var _ = host;
        await WarmAsync(host, world.One.Tanks[0], 16);
        Assert.Equal(0, await host.SendLettersAsync());
        await host.ChangeFlagAsync(FlagKind.Warm, f => f.TakenBy = Guid.NewGuid());

        host.Time.SetUtcNow(ends);
        await host.SendLettersAsync();

        var letter = Assert.Single(await host.LettersAsync());
        Assert.Equal((LetterState.GivenUp, LetterTroubles.NotNeeded + "somebody took it, or it was over."), (letter.State, letter.Trouble));
        await using var db = host.OpenDb();
        Assert.True((await LetterCounts.LoadAsync(db, host.Now, CancellationToken.None)).Good);
    }

    [Theory, BothDatabases]
    public async Task After_a_quiet_night_several_troubles_of_a_tank_come_as_one_mail(DatabaseKind kind)
    {
        var sink = new MailSink();
        var (host, world, ends) = await QuietAsync(kind, sink);
        await using var _ = host;
        var tank = world.One.Tanks[0];
        await WarmAsync(host, tank, 16);
        host.Time.Advance(TimeSpan.FromHours(2));
        await host.AcceptAsync(Sent.Seen(tank, host.Now, new() { Moving = false, Bubbles = false }));
        await host.JudgeAsync();
        Assert.Equal(2, (await host.LettersAsync()).Count);

        host.Time.SetUtcNow(ends);
        await host.SendLettersAsync();

        Assert.Equal([LetterState.GivenUp, LetterState.Sent], (await host.LettersAsync()).Select(l => l.State).Order(Comparer<LetterState>.Create((a, b) => b.CompareTo(a))));
        Assert.Contains("Act now", (await sink.NextAsync()).Subject, StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task Who_does_not_want_it_gets_none_and_without_a_coordinator_the_lead_does(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await host.ChangePersonAsync(world.One.People[Role.Coordinator], p => p.WantsUrgent = false);
        await host.SeedAsync(db => db.Memberships.RemoveRange(db.Memberships.Where(m => m.PersonId == world.Two.People[Role.Coordinator].Id)));
        await host.AcceptAsync(Sent.Water(world.One.Tanks[0], host.Now.AddMinutes(-5), 16), Sent.Water(world.Two.Tanks[0], host.Now.AddMinutes(-5), 16));

        await host.JudgeAsync();

        Assert.Equal(world.Two.EmailOf(Role.ProgrammeLead), Assert.Single(await host.LettersAsync()).To);
    }

    /// <summary>The flag and its mail stand or fall together.</summary>
    [Theory, BothDatabases]
    public async Task A_portal_that_dies_after_judging_has_written_the_mail_and_the_next_sends_it_once(DatabaseKind kind)
    {
        await using var server = new MailServer();
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, new PortalHostSettings { Keys = server.Keys });
        await using var _ = host;
        await using (var first = host.Neighbour())
        {
            await first.AcceptAsync(Sent.Water(world.One.Tanks[0], host.Now.AddMinutes(-5), 16));
            await first.JudgeAsync();
        }

        await host.JudgeAsync();
        await host.SweepAsync();
        await host.SendLettersAsync();
        await host.SendLettersAsync();

        Assert.Single(server.All);
    }

    [Theory, BothDatabases]
    public async Task Portals_that_judge_at_once_write_each_mail_once(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await using var other = host.Neighbour();
        await using var third = host.Neighbour();
        PortalHost[] portals = [host, other, third];
        Assert.All(portals, p => Assert.NotNull(p.Services));
        await host.AcceptAsync([.. world.One.Tanks.Concat(world.Two.Tanks).Select(t => Sent.Water(t, host.Now.AddMinutes(-5), 16))]);

        await Task.WhenAll(portals.Select(p => Task.Run(p.SweepAsync)));

        var told = (await host.LettersAsync()).Select(l => UrgentKey.Read(l.Key)!).SelectMany(k => k.Tanks.Select(t => (t, k.Person))).Order().ToList();
        Assert.Equal(["A001", "A002", "B001", "B002"], told.Select(t => t.t));
    }

    [Theory]
    [InlineData("A001", "A 2,x", "Ü3")]
    public void A_key_keeps_whatever_codes_tanks_have(params string[] codes)
    {
        var key = new UrgentKey(TestWorld.Now, codes, Guid.NewGuid());

        var read = UrgentKey.Read(key.ToString())!;

        Assert.Equal((key.Slot, key.Person), (read.Slot, read.Person));
        Assert.Equal(codes, read.Tanks);
    }

    [Fact]
    public void Many_tanks_are_parted_into_keys_that_fit_their_column()
    {
        var codes = Enumerable.Range(1, 300).Select(i => $"Tank {i}").ToList();

        var parts = UrgentKey.Parts(codes).ToList();

        Assert.Equal(codes, parts.SelectMany(p => p));
        Assert.All(parts, p => Assert.InRange(new UrgentKey(TestWorld.Now, p, Guid.NewGuid()).ToString().Length, 1, 400));
    }

    private static async Task WarmAsync(PortalHost host, Tank tank, double celsius)
    {
        await host.AcceptAsync(Sent.Water(tank, host.Now, celsius));
        await host.JudgeAsync();
    }

    /// <summary>Until one hour past noon of the first programme its coordinator wants no mail.</summary>
    private static async Task<(PortalHost Host, TestWorld World, DateTime Ends)> QuietAsync(DatabaseKind kind, MailSink sink)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, sink.Settings);
        await host.ChangePersonAsync(world.One.People[Role.Coordinator], p => (p.QuietFrom, p.QuietTo) = (new(6, 0), new(13, 0)));
        return (host, world, ProgrammeClock.Of(world.One.Programme.TimeZone).Utc(new(2027, 2, 3), new(13, 0)));
    }
}

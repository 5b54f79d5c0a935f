using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts.Mail;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Accounts;

/// <summary>The outbox against a real mail server: each letter goes once, whatever fails on the way.</summary>
public class OutboxTests
{
    /// <summary>No morning mail is due any more.</summary>
    private static readonly DateTime Afternoon = TestWorld.Now.AddHours(7);

    [Theory, BothDatabases]
    public async Task A_letter_goes_once_with_a_message_id_of_its_own(DatabaseKind kind)
    {
        await using var server = new MailServer();
        var (host, world) = await HostAsync(kind, server);
        await using var _ = host;
        await host.WriteLetterAsync(world.One, "a");

        await host.SendLettersAsync();
        await host.SendLettersAsync();

        var message = Assert.Single(server.All);
        var letter = Assert.Single(await host.LettersAsync());
        Assert.Equal((LetterState.Sent, 1, host.Now, null), (letter.State, letter.Attempts, letter.SentAt!.Value, letter.Trouble));
        Assert.Equal($"{letter.Id:N}@example.test", message.MessageId);
        Assert.Equal(("About a", "This is a."), (message.Subject, message.TextBody!.Trim()));
    }

    [Theory, BothDatabases]
    public async Task The_same_key_is_written_once(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;

        Assert.True(await host.WriteLetterAsync(world.One, "a"));
        Assert.False(await host.WriteLetterAsync(world.One, "a"));

        Assert.Single(await host.LettersAsync());
    }

    [Theory, BothDatabases]
    public async Task A_letter_that_was_not_committed_is_not_sent(DatabaseKind kind)
    {
        var sink = new MailSink();
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, sink.Settings);
        await using var _ = host;
        var outbox = host.Services.GetRequiredService<Outbox>();
        await using (var db = host.OpenDb())
        {
            await using var transaction = await db.Database.BeginTransactionAsync();
            await outbox.WriteAsync(
                db, new NewLetter("a", world.One.Programme.Id, null, "x@example.test", "s", "t"), CancellationToken.None);
            await db.SaveChangesAsync();
        }

        Assert.Equal(0, await host.SendLettersAsync());
    }

    [Theory, BothDatabases]
    public async Task A_server_that_refuses_is_tried_again_after_longer_and_longer_waits(DatabaseKind kind)
    {
        await using var server = new MailServer { Mood = MailServerMood.Refuses };
        var (host, world) = await HostAsync(kind, server);
        await using var _ = host;
        await host.WriteLetterAsync(world.One, "a");

        foreach (var minutes in new[] { 1, 5, 15, 60, 60 })
        {
            Assert.Equal(1, await host.SendLettersAsync());
            var waits = Assert.Single(await host.LettersAsync());
            Assert.Equal((LetterState.Waiting, host.Now.AddMinutes(minutes), LetterTroubles.Failed), (waits.State, waits.NotBefore, waits.Trouble));
            host.Time.Advance(TimeSpan.FromMinutes(minutes) - TimeSpan.FromSeconds(1));
            Assert.Equal(0, await host.SendLettersAsync());
            host.Time.Advance(TimeSpan.FromSeconds(1));
        }

        server.Mood = MailServerMood.Takes;
        await host.SendLettersAsync();

        Assert.Single(server.All);
        Assert.Equal((LetterState.Sent, 6), Assert.Single((await host.LettersAsync()).Select(l => (l.State, l.Attempts))));
    }

    [Theory, BothDatabases]
    public async Task After_a_day_of_refusals_a_letter_is_given_up(DatabaseKind kind)
    {
        var sink = new MailSink(MailOutcome.Failed);
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, sink.Settings);
        await using var _ = host;
        await host.WriteLetterAsync(world.One, "a");
        var written = host.Now;

        while (Assert.Single(await host.LettersAsync()) is { State: LetterState.Waiting } waits)
        {
            host.Time.SetUtcNow(waits.NotBefore);
            await host.SendLettersAsync();
        }

        Assert.Equal(LetterState.GivenUp, Assert.Single(await host.LettersAsync()).State);
        Assert.InRange((host.Now - written).TotalHours, 23, 24);
        Assert.False((await CountsAsync(host)).Good);
    }

    [Theory, BothDatabases]
    public async Task A_letter_that_a_dead_portal_had_in_hand_becomes_unsure_and_is_not_sent_again(DatabaseKind kind)
    {
        var sink = new MailSink();
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, sink.Settings);
        await using var _ = host;
        await host.WriteLetterAsync(world.One, "a");
        await using (var db = host.OpenDb())
        {
            var claimed = await db.OutgoingLetters.SingleAsync();
            (claimed.State, claimed.HeldUntil) = (LetterState.Sending, host.Now + SendLetters.Hold);
            await db.SaveChangesAsync();
        }

        await host.SendLettersAsync();
        Assert.Equal(LetterState.Sending, Assert.Single(await host.LettersAsync()).State);
        host.Time.Advance(SendLetters.Hold + TimeSpan.FromSeconds(1));
        Assert.Equal(0, await host.SendLettersAsync());

        var letter = Assert.Single(await host.LettersAsync());
        Assert.Equal((LetterState.Unsure, LetterTroubles.PortalStopped), (letter.State, letter.Trouble));
        Assert.Equal(new LetterCounts(0, 1, 0), await CountsAsync(host));
    }

    [Fact]
    public async Task A_server_that_has_the_letter_and_breaks_off_leaves_it_unsure()
    {
        await using var server = new MailServer { Mood = MailServerMood.TakesAndBreaksOff };
        var (host, world) = await HostAsync(DatabaseKind.Sqlite, server);
        await using var _ = host;
        await host.WriteLetterAsync(world.One, "a");

        await host.SendLettersAsync();
        host.Time.Advance(TimeSpan.FromDays(1));
        await host.SendLettersAsync();

        Assert.Single(server.All);
        Assert.Equal((LetterState.Unsure, LetterTroubles.NoAnswer), Assert.Single((await host.LettersAsync()).Select(l => (l.State, l.Trouble))));
    }

    [Theory, BothDatabases]
    public async Task Many_senders_at_once_send_every_letter_once(DatabaseKind kind)
    {
        const int count = 40;
        await using var server = new MailServer();
        var (host, world) = await HostAsync(kind, server);
        await using var _ = host;
        for (var i = 0; i < count; i++)
        {
            await host.WriteLetterAsync(world.One, $"letter {i}");
        }

        var senders = await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => Task.Run(host.SendLettersAsync)));

        Assert.Equal(count, senders.Sum());
        Assert.Equal(count, server.All.Select(m => m.MessageId).Distinct().Count());
        Assert.Equal(count, server.All.Count);
        Assert.All(await host.LettersAsync(), l => Assert.Equal((LetterState.Sent, 1), (l.State, l.Attempts)));
    }

    [Theory, BothDatabases]
    public async Task In_a_persons_quiet_hours_a_letter_waits_until_they_end(DatabaseKind kind)
    {
        var sink = new MailSink();
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, sink.Settings);
        await using var _ = host;
        await host.ChangePersonAsync(world.One.People[Role.Coordinator], p => (p.QuietFrom, p.QuietTo) = (new(7, 0), new(9, 0)));
        await host.WriteLetterAsync(world.One, "a");

        Assert.Equal(0, await host.SendLettersAsync());
        var waits = Assert.Single(await host.LettersAsync());
        Assert.Equal((LetterState.Waiting, 0, ProgrammeClock.Of("America/Denver").Utc(new(2027, 2, 3), new(9, 0))), (waits.State, waits.Attempts, waits.NotBefore));
        host.Time.SetUtcNow(waits.NotBefore);
        Assert.Equal(1, await host.SendLettersAsync());

        Assert.Equal("About a", (await sink.NextAsync()).Subject);
    }

    [Theory, BothDatabases]
    public async Task What_waits_when_a_portal_stops_is_sent_by_the_next(DatabaseKind kind)
    {
        await using var server = new MailServer();
        var (host, world) = await HostAsync(kind, server);
        await using var _ = host;
        await using (var first = host.Neighbour())
        {
            await first.WriteLetterAsync(world.One, "a");
        }

        await using var next = host.Neighbour(new PortalHostSettings { Keys = server.Keys, MailWorks = true, Now = Afternoon });
        using var started = next.Anonymous();

        Assert.Equal("About a", (await server.NextAsync()).Subject);
    }

    [Theory, BothDatabases]
    public async Task A_portal_that_works_by_itself_sends_at_once_when_woken(DatabaseKind kind)
    {
        await using var server = new MailServer();
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, new PortalHostSettings { Keys = server.Keys, MailWorks = true, Now = Afternoon });
        await using var _ = host;
        await host.WriteLetterAsync(world.One, "a");

        host.Services.GetRequiredService<Outbox>().Wake();

        Assert.Equal("About a", (await server.NextAsync()).Subject);
    }

    [Fact]
    public async Task Unsure_letters_make_the_portal_degraded_and_not_unready()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        Assert.Contains("\"letters\":\"healthy\"", await host.Anonymous().GetStringAsync("/health/ready"), StringComparison.Ordinal);
        await host.WriteLetterAsync(world.One, "a");
        await host.SeedAsync(db => db.OutgoingLetters.Single().State = LetterState.Unsure);

        Assert.Contains("\"letters\":\"degraded\"", await host.Anonymous().GetStringAsync("/health/ready"), StringComparison.Ordinal);
    }

    private static Task<(PortalHost Host, TestWorld World)> HostAsync(DatabaseKind kind, MailServer server) =>
        PortalHost.CreateWithWorldAsync(kind, new PortalHostSettings { Keys = server.Keys });

    private static async Task<LetterCounts> CountsAsync(PortalHost host)
    {
        await using var db = host.OpenDb();
        return await LetterCounts.LoadAsync(db, host.Now, CancellationToken.None);
    }
}

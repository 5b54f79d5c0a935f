using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts.Mail;
using Tankside.Portal.Tests.Accounts;
using Tankside.Portal.Tests.Readings;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Digests;

/// <summary>The morning mail: once a local day, at the programme's hour, in the person's language, while it is morning.</summary>
public class MorningDigestTests
{
    private static readonly ProgrammeClock Denver = ProgrammeClock.Of("America/Denver");

    [Theory, BothDatabases]
    public async Task It_goes_at_the_programmes_hour_to_coordinator_and_lead_and_only_once(DatabaseKind kind)
    {
        await using var server = new MailServer();
        var (host, world) = await HostAsync(kind, "06:29", new PortalHostSettings { Keys = server.Keys });
        await using var _ = host;

        Assert.Equal(0, await host.WriteDigestsAsync());
        host.Time.Advance(TimeSpan.FromMinutes(1));
        Assert.Equal(2, await host.WriteDigestsAsync());
        Assert.Equal(0, await host.WriteDigestsAsync());
        await host.SendLettersAsync();
        host.Time.Advance(TimeSpan.FromHours(2));
        Assert.Equal(0, await OfFirstAsync(host, world));
        await host.SendLettersAsync();

        Assert.Equal(
            [world.One.EmailOf(Role.Coordinator), world.One.EmailOf(Role.ProgrammeLead)],
            server.All.Select(m => m.To.Mailboxes.Single().Address).Where(a => a.Contains("-a@", StringComparison.Ordinal)).Order());
    }

    [Theory, BothDatabases]
    public async Task The_first_line_is_the_answer_and_each_call_has_its_reason_adult_and_link(DatabaseKind kind)
    {
        await using var server = new MailServer();
        var (host, world) = await HostAsync(kind, "06:30", new PortalHostSettings { Keys = server.Keys });
        await using var _ = host;
        await OnlyAsync(host, world, Role.Coordinator);
        await host.ChangePersonAsync(world.One.People[Role.Teacher], p => p.PhoneNumber = "555 0100");
        await host.AcceptAsync(Sent.Water(world.One.Tanks[0], host.Now.AddMinutes(-20), 16));
        await host.JudgeAsync();

        await host.WriteDigestsAsync();
        await host.SendLettersAsync();

        var mail = await server.NextAsync();
        var lines = mail.TextBody!.Split('\n').Select(l => l.Trim()).ToList();
        Assert.Equal("1 tank needs you this morning; 1 is well.", mail.Subject);
        Assert.Equal(mail.Subject, lines[0]);
        Assert.Equal("Birch Lane School, Room 1 (A001): act now", lines[2]);
        Assert.StartsWith("60.8 °F (16.0 °C) at 06:10", lines[3], StringComparison.Ordinal);
        Assert.Contains("Ring: Teacher A, 555 0100", lines);
        Assert.Contains($"{PortalHost.PublicUrl}round?tank=A001", lines);
        Assert.Contains($"The whole round: {PortalHost.PublicUrl}round", lines);
    }

    [Theory, BothDatabases]
    public async Task It_is_in_the_persons_language(DatabaseKind kind)
    {
        var sink = new MailSink();
        var (host, world) = await HostAsync(kind, "06:30", sink.Settings);
        await using var _ = host;
        await OnlyAsync(host, world, Role.ProgrammeLead);
        await host.ChangePersonAsync(world.One.People[Role.ProgrammeLead], p => p.Language = "es");
        await host.AcceptAsync(Sent.Water(world.One.Tanks[0], host.Now.AddMinutes(-20), 16));
        await host.JudgeAsync();

        await host.WriteDigestsAsync();
        await host.SendLettersAsync();

        var mail = await sink.NextAsync();
        Assert.StartsWith("1 tanque le necesita esta mañana; 1 está bien.", mail.Text, StringComparison.Ordinal);
        Assert.Contains("60,8 °F (16 °C) a las 06:10, por encima del límite", mail.Text, StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_portal_that_comes_back_in_the_morning_makes_up_for_it_and_after_noon_does_not(DatabaseKind kind)
    {
        var (host, world) = await HostAsync(kind, "12:00", new PortalHostSettings());
        await using var _ = host;

        Assert.Equal(0, await OfFirstAsync(host, world));
        host.Time.SetUtcNow(Denver.Utc(new(2027, 2, 5), new(11, 59)));
        Assert.Equal(2, await OfFirstAsync(host, world));
    }

    [Theory, BothDatabases]
    public async Task One_that_could_not_go_before_noon_is_left(DatabaseKind kind)
    {
        var sink = new MailSink(MailOutcome.Failed);
        var (host, world) = await HostAsync(kind, "11:30", sink.Settings);
        await using var _ = host;
        await OnlyAsync(host, world, Role.Coordinator);
        await host.WriteDigestsAsync();
        await host.SendLettersAsync();

        host.Time.Advance(TimeSpan.FromMinutes(40));
        await host.SendLettersAsync();

        var letter = Assert.Single(await host.LettersAsync());
        Assert.Equal((LetterState.GivenUp, 1), (letter.State, letter.Attempts));
        Assert.StartsWith(LetterTroubles.NotNeeded, letter.Trouble, StringComparison.Ordinal);
    }

    /// <summary>In 2027 the clocks of Denver go forward on 14 March at 02:00 and back on 7 November at 02:00.</summary>
    [Theory]
    [InlineData("2027-03-14", "02:30", 9 * 60)]
    [InlineData("2027-03-14", "06:30", (12 * 60) + 30)]
    [InlineData("2027-11-07", "01:30", (7 * 60) + 30)]
    [InlineData("2027-11-07", "06:30", (13 * 60) + 30)]
    public async Task On_the_days_the_clocks_change_it_goes_once_all_the_same(string day, string at, int minutesUtc)
    {
        var (host, world) = await HostAsync(DatabaseKind.Sqlite, "06:30", new PortalHostSettings());
        await using var _ = host;
        await OnlyAsync(host, world, Role.Coordinator);
        await host.SeedAsync(db => db.Programmes.Single(p => p.Id == world.One.Programme.Id).DigestAt = TimeOnly.Parse(at, CultureInfo.InvariantCulture));
        var date = DateOnly.Parse(day, CultureInfo.InvariantCulture);
        // The half hour that spring skips is counted from where the clocks stand after it.
        var due = date.ToDateTime(TimeOnly.MinValue, DateTimeKind.Utc).AddMinutes(minutesUtc + (at == "02:30" ? 30 : 0));
        var written = new List<DateTime>();

        for (var now = Denver.Utc(date, TimeOnly.MinValue); Denver.Day(now) == date; now = now.AddMinutes(10))
        {
            if (now >= host.Now)
            {
                host.Time.SetUtcNow(now);
                written.AddRange(Enumerable.Repeat(now, await OfFirstAsync(host, world)));
            }
        }

        Assert.Equal([due], written);
    }

    [Theory, BothDatabases]
    public async Task Quiet_hours_put_it_off_and_it_tells_the_round_of_then(DatabaseKind kind)
    {
        var sink = new MailSink();
        var (host, world) = await HostAsync(kind, "06:30", sink.Settings);
        await using var _ = host;
        await OnlyAsync(host, world, Role.Coordinator);
        await host.ChangePersonAsync(world.One.People[Role.Coordinator], p => (p.QuietFrom, p.QuietTo) = (new(21, 0), new(7, 45)));
        await host.WriteDigestsAsync();
        Assert.Equal(0, await host.SendLettersAsync());

        await host.AcceptAsync(Sent.Water(world.One.Tanks[0], host.Now, 13));
        await host.JudgeAsync();
        host.Time.SetUtcNow(Denver.Utc(new(2027, 2, 4), new(7, 45)));
        Assert.Equal(1, await host.SendLettersAsync());

        Assert.StartsWith("1 tank needs you this morning", (await sink.NextAsync()).Text, StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task Two_portals_that_write_at_once_write_one_each(DatabaseKind kind)
    {
        var (host, world) = await HostAsync(kind, "06:30", new PortalHostSettings());
        await using var _ = host;
        await using var other = host.Neighbour();
        Assert.NotSame(host.Services, other.Services);

        await Task.WhenAll(Task.Run(host.WriteDigestsAsync), Task.Run(other.WriteDigestsAsync));

        var keys = (await host.LettersAsync()).Where(l => l.ProgrammeId == world.One.Programme.Id).Select(l => l.PersonId).ToList();
        Assert.Equal(2, keys.Count);
        Assert.Equal(2, keys.Distinct().Count());
    }

    [Theory, BothDatabases]
    public async Task Out_of_season_no_mail_says_so_every_morning(DatabaseKind kind)
    {
        var (host, world) = await HostAsync(kind, "06:30", new PortalHostSettings());
        await using var _ = host;
        await host.SeedAsync(db =>
        {
            foreach (var tank in db.Tanks)
            {
                tank.ClosedAt = host.Now;
            }
        });

        Assert.Equal(0, await host.WriteDigestsAsync());
        Assert.Empty(await host.LettersAsync());
    }

    [Fact]
    public async Task Made_up_people_are_never_mailed_through_a_real_server()
    {
        await using var server = new MailServer();
        var (host, world) = await HostAsync(DatabaseKind.Sqlite, "06:30", new PortalHostSettings { Keys = server.Keys });
        await using var _ = host;
        await host.ChangePersonAsync(world.One.People[Role.Coordinator], p => p.IsDemo = true);

        Assert.Equal(1, await OfFirstAsync(host, world));
    }

    /// <summary>A host on 4 February 2027 at a local time of the first programme.</summary>
    private static Task<(PortalHost Host, TestWorld World)> HostAsync(DatabaseKind kind, string local, PortalHostSettings settings) =>
        PortalHost.CreateWithWorldAsync(kind, settings with { Now = Denver.Utc(new(2027, 2, 4), TimeOnly.Parse(local, CultureInfo.InvariantCulture)) });

    /// <summary>Of both programmes only one person of the first wants the morning mail, and nobody any other.</summary>
    private static async Task OnlyAsync(PortalHost host, TestWorld world, Role role)
    {
        var wants = world.One.People[role].Id;
        await host.SeedAsync(db =>
        {
            foreach (var person in db.Users)
            {
                (person.WantsDigest, person.WantsUrgent) = (person.Id == wants, false);
            }
        });
    }

    /// <summary>Writes what is due and gives how many mails of the first programme are new.</summary>
    private static async Task<int> OfFirstAsync(PortalHost host, TestWorld world)
    {
        await using var db = host.OpenDb();
        var letters = db.OutgoingLetters.Where(l => l.ProgrammeId == world.One.Programme.Id);
        var before = await letters.CountAsync();
        await host.WriteDigestsAsync();
        return await letters.CountAsync() - before;
    }
}

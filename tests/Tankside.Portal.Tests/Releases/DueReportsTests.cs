using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Tests.Accounts;
using Tankside.Storage;
using Tankside.Testing;
using static Tankside.Portal.Tests.Releases.LedgerForms;

namespace Tankside.Portal.Tests.Releases;

/// <summary>Reports to the agency: what is due, what is late, nothing released, and the mails that remind.</summary>
public class DueReportsTests
{
    private static readonly ProgrammeClock Denver = ProgrammeClock.Of("America/Denver");

    [Theory, BothDatabases]
    public async Task The_list_counts_the_days_left_and_late_over_the_end_of_a_month_and_a_report_that_is_sent_leaves_it(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, new PortalHostSettings { Now = Denver.Utc(new(2027, 2, 22), new(12, 0)) });
        await using var _ = host;
        var one = world.One;
        var client = await host.ClientAs(Role.Coordinator, one);
        var id = Guid.NewGuid();
        await client.SendAsync("/releases", Release(one.Tanks[0], one.Site, one.Permit, "20", ("Id", id.ToString())), "release");

        var page = await client.ReadAsync("/releases/due");
        Assert.Contains("1 report is to be sent; none is late.", page, StringComparison.Ordinal);
        Assert.Contains("4 Mar 2027", page, StringComparison.Ordinal);
        Assert.Contains("10 days left", page, StringComparison.Ordinal);
        host.Time.Advance(TimeSpan.FromDays(12));
        page = await client.ReadAsync("/releases/due");
        Assert.Contains("1 report is late.", page, StringComparison.Ordinal);
        Assert.Contains("2 days late", page, StringComparison.Ordinal);

        var done = await client.SendAsync("/releases/due", new() { ["Input.Release"] = id.ToString() }, "sent");
        Assert.Contains("No report of a release is to be sent.", done, StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task Nothing_released_is_reported_in_one_act_and_then_nothing_can_be_released_until_it_is_taken_back(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var one = world.One;
        var client = await host.ClientAs(Role.Coordinator, one);
        var nil = new Dictionary<string, string> { ["Input.Permit"] = one.Permit.Id.ToString() };
        Assert.Contains("Nothing released so far; the permit runs until 30 Jun 2027", await client.ReadAsync("/releases/due"), StringComparison.Ordinal);

        Assert.Contains("Nil reports that were sent", await client.SendAsync("/releases/due", nil, "nil"), StringComparison.Ordinal);
        var refused = await client.RefusedAsync("/releases", Release(one.Tanks[0], one.Site, one.Permit, "20"), "release");
        Assert.Contains("The agency was told that nothing was released on permit P-1.", refused, StringComparison.Ordinal);
        await client.SendAsync("/releases/due", nil, "unnil");
        await client.SendAsync("/releases", Release(one.Tanks[0], one.Site, one.Permit, "20"), "release");
        Assert.Contains("so there is no nil report", await client.SendAsync("/releases/due", nil, "nil"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_release_and_a_nil_report_at_the_same_moment_are_not_both_kept(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var one = world.One;
        var client = await host.ClientAs(Role.Coordinator, one);

        await Task.WhenAll(
            client.PostFormAsync("/releases", Release(one.Tanks[0], one.Site, one.Permit, "20"), "release"),
            client.PostFormAsync("/releases/due", new Dictionary<string, string> { ["Input.Permit"] = one.Permit.Id.ToString() }, "nil"));

        await using var db = host.OpenDb();
        Assert.NotEqual(await db.Releases.AnyAsync(), await db.Permits.AnyAsync(p => p.Id == one.Permit.Id && p.NilReportedAt != null));
    }

    [Theory, BothDatabases]
    public async Task Another_programmes_permit_cannot_be_reported_as_unused(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var client = await host.ClientAs(Role.ProgrammeLead, world.One);

        var said = await client.SendAsync("/releases/due", new() { ["Input.Permit"] = world.Two.Permit.Id.ToString() }, "nil");

        Assert.Contains("There is no such permit", said, StringComparison.Ordinal);
        await using var db = host.OpenDb();
        Assert.False(await db.Permits.AnyAsync(p => p.NilReportedAt != null));
    }

    [Theory, BothDatabases]
    public async Task Reminders_go_once_before_and_once_after_the_day_to_the_leads_and_whoever_answers_for_the_permit(DatabaseKind kind)
    {
        var (host, world) = await BeginAsync(kind);
        await using var _ = host;
        await using var other = host.Neighbour();
        var (lead, responsible) = (world.One.People[Role.ProgrammeLead].Id, world.One.People[Role.Coordinator].Id);

        MoveTo(host, "2027-02-09", "07:00"); // due on the 13th: four days left
        Assert.Equal(0, await host.WriteRemindersAsync());
        MoveTo(host, "2027-02-10", "06:00"); // before the programme's hour
        Assert.Equal(0, await host.WriteRemindersAsync());
        MoveTo(host, "2027-02-10", "07:00");
        other.Time.SetUtcNow(host.Time.GetUtcNow());
        await Task.WhenAll(Task.Run(host.WriteRemindersAsync), Task.Run(other.WriteRemindersAsync));
        MoveTo(host, "2027-02-12", "07:00");
        Assert.Equal(0, await host.WriteRemindersAsync());
        Assert.Equal([lead, responsible], (await host.LettersAsync()).Select(l => l.PersonId!.Value).ToHashSet());
        Assert.Equal(2, (await host.LettersAsync()).Count);

        MoveTo(host, "2027-02-14", "07:00");
        Assert.Equal(2, await host.WriteRemindersAsync());
        MoveTo(host, "2027-02-15", "07:00");
        Assert.Equal(0, await host.WriteRemindersAsync());
    }

    [Theory, BothDatabases]
    public async Task A_reminder_says_what_is_due_and_is_left_when_the_report_was_sent_meanwhile(DatabaseKind kind)
    {
        var sink = new MailSink();
        var host = (await BeginAsync(kind, sink.Settings)).Host;
        await using var _ = host;
        MoveTo(host, "2027-02-10", "07:00");
        await host.WriteRemindersAsync();
        await host.SendLettersAsync();

        var mail = await sink.NextAsync();
        Assert.StartsWith("The release report of permit P-1 is due in 3 days (13 Feb 2027).", mail.Text, StringComparison.Ordinal);
        Assert.Contains("A001, Birch Lane School: 20 fish at Footbridge on 3 Feb 2027", mail.Text, StringComparison.Ordinal);
        Assert.Contains($"{PortalHost.PublicUrl}releases/due", mail.Text, StringComparison.Ordinal);

        MoveTo(host, "2027-02-14", "07:00");
        await host.WriteRemindersAsync();
        await host.SeedAsync(db => db.Releases.Single().ReportedAt = host.Now);
        await host.SendLettersAsync();
        Assert.All((await host.LettersAsync()).TakeLast(2), l => Assert.Equal(LetterState.GivenUp, l.State));
    }

    /// <summary>A release of 3 February whose report is due on the 13th; nobody else's permit is near its end.</summary>
    private static async Task<(PortalHost Host, TestWorld World)> BeginAsync(DatabaseKind kind, PortalHostSettings? settings = null)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, settings);
        var one = world.One;
        await host.SeedAsync(db =>
        {
            db.Permits.Single(p => p.Id == one.Permit.Id).ResponsibleId = one.People[Role.Coordinator].Id;
            db.Add(new Release
            {
                Id = Guid.NewGuid(),
                SeasonId = one.Season.Id,
                TankId = one.Tanks[0].Id,
                SiteId = one.Site.Id,
                PermitId = one.Permit.Id,
                At = host.Now,
                Fish = 20,
                EnteredAt = host.Now,
            });
        });
        return (host, world);
    }

    private static void MoveTo(PortalHost host, string day, string time) =>
        host.Time.SetUtcNow(Denver.Utc(DateOnly.Parse(day, CultureInfo.InvariantCulture), TimeOnly.Parse(time, CultureInfo.InvariantCulture)));
}

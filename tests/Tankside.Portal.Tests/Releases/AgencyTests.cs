using Tankside.Hatchery.People;
using Tankside.Portal.Releases;
using Tankside.Storage;
using Tankside.Testing;
using static Tankside.Portal.Tests.Releases.LedgerForms;

namespace Tankside.Portal.Tests.Releases;

/// <summary>What the agency's contact sees, and the programme's report in the agency's own columns.</summary>
public class AgencyTests
{
    [Theory, BothDatabases]
    public async Task A_report_is_late_the_day_after_it_was_due_and_nobodys_number_is_told(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var one = world.One;
        await host.SeedAsync(db => db.Users.Single(p => p.Id == one.People[Role.Coordinator].Id).PhoneNumber = "555-0142");
        var lead = await host.ClientAs(Role.ProgrammeLead, one);
        await lead.SendAsync("/releases", Release(one.Tanks[0], one.Site, one.Permit, "40"), "release");

        host.Time.Advance(TimeSpan.FromDays(10));
        var agency = await host.ClientAs(Role.AgencyContact, one);
        var inTime = await agency.ReadAsync("/agency");
        host.Time.Advance(TimeSpan.FromDays(1));
        var late = await agency.ReadAsync("/agency");

        Assert.Contains("No report is late.", inTime, StringComparison.Ordinal);
        Assert.Contains("1 report is still to come, the next by 13 Feb 2027", inTime, StringComparison.Ordinal);
        Assert.Contains("1 report is late.", late, StringComparison.Ordinal);
        Assert.Contains("not sent, 1 day late", late, StringComparison.Ordinal);
        Assert.All([one.People[Role.Coordinator].Name, "555-0142", "@example.test"], secret => Assert.DoesNotContain(secret, late, StringComparison.Ordinal));
    }

    [Theory, BothDatabases]
    public async Task A_nil_report_is_missed_by_the_agency_until_somebody_says_that_it_was_sent(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var permit = world.One.Permit;
        var due = permit.To.AddDays(Hatchery.Releases.ReleaseRules.ReportWithinDays);
        var agency = await host.ClientAs(Role.AgencyContact, world.One);
        var early = await agency.ReadAsync("/agency");
        host.Time.Advance(due.AddDays(2).ToDateTime(new TimeOnly(16, 0), DateTimeKind.Utc) - host.Time.GetUtcNow().UtcDateTime);
        agency = await host.ClientAs(Role.AgencyContact, world.One);
        var late = await agency.ReadAsync("/agency");
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);
        await lead.SendAsync("/releases/due", new() { ["Input.Permit"] = permit.Id.ToString() }, "nil");
        var sent = await agency.ReadAsync("/agency");

        Assert.Contains("still to come", early, StringComparison.Ordinal);
        Assert.Contains("1 report is late.", late, StringComparison.Ordinal);
        Assert.Contains("not sent, 2 days late", late, StringComparison.Ordinal);
        Assert.Contains("No report is late.", sent, StringComparison.Ordinal);
        Assert.Contains($"sent {SeasonAtHand.Day(due.AddDays(2))}, 2 days late", sent, StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task The_programmes_own_columns_are_filled_from_the_totals(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);
        const string Mapping = "# Form 7\nSchool name: school\nIn: eggs_received + transferred_in - transferred_out\nDead: dead_on_arrival + egg_losses\nBasin: \"=Reed: upper\"\nSurvival: survival_percent";

        await lead.SendAsync("/season/report-columns", Fields(("Text", Mapping), ("Version", "0")), "columns");
        var agency = await host.ClientAs(Role.AgencyContact, world.One);
        var rows = FilesOfTotals.Csv(await agency.GetByteArrayAsync("/totals/own.csv"));

        Assert.Equal(["School name", "In", "Dead", "Basin", "Survival"], rows[0].Keys);
        Assert.Equal(["Birch Lane School", "150", "2", "'=Reed: upper", ""], rows[0].Values);
    }

    [Theory, BothDatabases]
    public async Task A_mapping_that_cannot_be_understood_names_its_lines_and_what_was_typed_comes_back(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);

        var page = await lead.RefusedAsync(
            "/season/report-columns", Fields(("Text", "Eggs: eggs\nSchool: school + tank\nno source\nA: \"open\nA:released+"), ("Version", "0")), "columns");

        Assert.All(
            ["Line 1: The totals have no column “eggs”.", "Line 2: Only numbers of eggs and fish", "Line 3: Write the name of your column", "Line 4: A fixed text needs", "Line 5:", "no source"],
            text => Assert.Contains(text, page, StringComparison.Ordinal));
        await using var db = host.OpenDb();
        Assert.Empty(db.ReportColumns);
    }

    [Theory, BothDatabases]
    public async Task Received_less_the_dead_is_refused_as_a_count_and_merged_rooms_are_one_act(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);

        var refused = await lead.RefusedAsync(
            "/ledger/A001", Line(Hatchery.Releases.LedgerKind.Counted, "140", ("CountedBy", "Subtraction")), "line");
        var told = await lead.SendAsync("/ledger/A001/move", Fields(("To", "A002"), ("Count", "140"), ("EmptiesTank", "true")), "move");

        Assert.Contains("“Received, less the dead” is not a count", refused, StringComparison.Ordinal);
        Assert.Contains("A001 is closed", told, StringComparison.Ordinal);
        var (from, to) = (await host.BalanceAsync(world.One.Tanks[0]), await host.BalanceAsync(world.One.Tanks[1]));
        Assert.Equal((140, 0, 8, 140, 288), (from.TransferredOut, from.StillInTank, from.Unaccounted, to.TransferredIn, to.StillInTank));
        Assert.Contains("A001 + A002", await lead.ReadAsync("/totals?by=tank"), StringComparison.Ordinal);
    }
}

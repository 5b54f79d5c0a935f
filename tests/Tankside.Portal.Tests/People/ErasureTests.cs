using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Kit;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Portal.Tests.Releases;
using Tankside.Storage;
using Tankside.Testing;
using static Tankside.Portal.Tests.Releases.LedgerForms;

namespace Tankside.Portal.Tests.People;

/// <summary>An adult reads what is held about them, and has it taken out for good.</summary>
public class ErasureTests
{
    private const string Phone = "555-0142";

    [Theory, BothDatabases]
    public async Task Everybody_gets_all_that_is_held_about_them(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var coordinator = await LeaveTracesAsync(host, world.One);

        using var file = JsonDocument.Parse(await coordinator.GetByteArrayAsync("/me/data.json"));
        var page = await coordinator.ReadAsync("/me/data");

        var mine = file.RootElement;
        Assert.Equal((Phone, "coordinator"), (mine.GetProperty("phone").GetString(), mine.GetProperty("places")[0].GetProperty("role").GetString()));
        Assert.Equal(("Your password", "half a note"), (mine.GetProperty("letters")[0].GetProperty("subject").GetString(), mine.GetProperty("drafts")[0].GetProperty("text").GetString()));
        Assert.Contains(mine.GetProperty("did").EnumerateArray(), d => d.GetProperty("what").GetString() == "calendar feed, issued by" && d.GetProperty("times").GetInt64() == 1);
        Assert.Contains("kit depot, holder", page, StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task Who_is_erased_stands_nowhere_any_more_and_has_no_way_in(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var coordinator = await LeaveTracesAsync(host, world.One);
        var (name, mail, id) = (world.One.People[Role.Coordinator].Name, world.One.People[Role.Coordinator].Email!, world.One.People[Role.Coordinator].Id);
        await coordinator.SendAsync("/ledger/A001", Line(Hatchery.Releases.LedgerKind.EggLoss, "3"), "line");

        Assert.Contains("to say that you mean it. Nothing was erased.", await coordinator.RefusedAsync("/me/data", Fields(("Confirm", "another@example.test")), "erase"), StringComparison.Ordinal);
        Assert.NotEmpty(await StandsInAsync(host, name, mail, Phone));
        var told = await coordinator.SendAsync("/me/data", Fields(("Confirm", mail.ToUpperInvariant())), "erase");

        Assert.Contains("as done by a former coordinator", told, StringComparison.Ordinal);
        Assert.Empty(await StandsInAsync(host, name, mail, Phone));
        host.Time.Advance(TimeSpan.FromSeconds(61));
        Assert.Contains("/sign-in", $"{(await coordinator.GetAsync("/round")).Headers.Location}", StringComparison.Ordinal);
        await using var db = host.OpenDb();
        Assert.Equal((0, 1, 0), (await db.Memberships.CountAsync(m => m.PersonId == id), await db.Ledger.CountAsync(e => e.EnteredBy == id), await db.CalendarFeeds.CountAsync(f => f.RevokedAt == null)));
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);
        Assert.Contains("former coordinator", await lead.ReadAsync("/ledger/A001"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_lead_erases_who_asks_for_it_but_not_the_last_lead_nor_somebody_of_another_programme(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var (one, teacher, kitHand) = (world.One, world.One.People[Role.Teacher], world.One.People[Role.KitHand]);
        await host.SeedAsync(db => db.Add(new Membership { Id = Guid.NewGuid(), PersonId = kitHand.Id, ProgrammeId = world.Two.Programme.Id, Role = Role.KitHand }));
        var lead = await host.ClientAs(Role.ProgrammeLead, one);
        await using var db = host.OpenDb();
        var memberships = await db.Memberships.Where(m => m.ProgrammeId == one.Programme.Id).ToDictionaryAsync(m => m.PersonId, m => m.Id);

        Assert.Contains("only programme lead", await lead.RefusedAsync("/me/data", Fields(("Confirm", one.People[Role.ProgrammeLead].Email!)), "erase"), StringComparison.Ordinal);
        var other = await lead.PostFormAsync($"/people/{memberships[kitHand.Id]}", new Dictionary<string, string> { ["Confirm"] = kitHand.Email! }, "erase");
        Assert.Contains("is in another programme here too", await other.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.Contains("former teacher", await lead.SendAsync($"/people/{memberships[teacher.Id]}", new() { ["Confirm"] = teacher.Email! }, "erase"), StringComparison.Ordinal);

        Assert.Empty(await StandsInAsync(host, teacher.Name, teacher.Email!));
        Assert.NotEmpty(await StandsInAsync(host, kitHand.Email!));
    }

    /// <summary>A number, the key of a depot, a shift at the wheel, a calendar address, a permit to answer for, a letter, a draft, an invitation.</summary>
    private static async Task<HttpClient> LeaveTracesAsync(PortalHost host, TestProgramme one)
    {
        var person = one.People[Role.Coordinator];
        var client = await host.ClientAs(Role.Coordinator, one);
        await client.SendAsync("/me", Fields(("Name", person.Name), ("Phone", Phone), ("Language", "en")), "me");
        await host.SeedAsync(db =>
        {
            db.Add(new KitDepot { Id = Guid.NewGuid(), ProgrammeId = one.Programme.Id, Name = "Shed", HolderId = person.Id, Phone = Phone });
            db.Add(new CalendarFeed { Id = Guid.NewGuid(), ProgrammeId = one.Programme.Id, SecretHash = "x", IssuedAt = host.Now, IssuedBy = person.Id });
            db.Add(new Draft { PersonId = person.Id, Key = "note 1", Text = "half a note", At = host.Now });
            db.Add(new OutgoingLetter
            {
                Id = Guid.NewGuid(),
                Key = "k",
                ProgrammeId = one.Programme.Id,
                To = person.Email!,
                Subject = "Your password",
                Text = "x",
                WrittenAt = host.Now,
                NotBefore = host.Now,
                State = LetterState.Sent,
            });
            db.Add(new Invitation { Id = Guid.NewGuid(), ProgrammeId = one.Programme.Id, Email = person.Email!, Name = person.Name, Role = Role.Coordinator, SecretHash = "y", InvitedAt = host.Now, ExpiresAt = host.Now });
            db.Permits.Single(p => p.Id == one.Permit.Id).ResponsibleId = person.Id;
        });
        return client;
    }

    /// <summary>Every column with text of every table is looked through.</summary>
    private static async Task<List<string>> StandsInAsync(PortalHost host, params string[] words)
    {
        await using var db = host.OpenDb();
        var columns = db.Model.GetEntityTypes().Where(t => !t.IsOwned() && t.GetTableName() is not null)
            .SelectMany(t => t.GetProperties().Where(p => p.ClrType == typeof(string)).Select(p => (Table: t.GetTableName(), Column: p.GetColumnName())));
        var parts = columns.SelectMany(c => words.Select((_, i) =>
            $"SELECT '{c.Table}.{c.Column}' AS \"Value\" FROM \"{c.Table}\" WHERE lower(CAST(\"{c.Column}\" AS text)) LIKE {{{i}}}"));
        return await db.Database.SqlQueryRaw<string>(string.Join(" UNION ALL ", parts), [.. words.Select(w => (object)$"%{w.ToLowerInvariant()}%")]).ToListAsync();
    }
}

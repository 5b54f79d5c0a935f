using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.Tests.Accounts;
using Tankside.Portal.Tests.People;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Places.Sheets;

/// <summary>Sheets of adults become invitations, one an address, mailed after somebody has confirmed.</summary>
public class PeopleImportTests
{
    private const string Sheet = """
        Name,Email,Role,School,Mobile
        Ines Vale,ines@example.test,teacher,Birch Lane School,555-0199
        Inés Vale,INES@example.test,coordinator,,
        Ola Brook,ola@example.test,kit hand,,
        Tam Reed,tam@example.test,teacher,Nowhere School,
        Ada,ada@example.test,student,,
        Pat,not an address,coordinator,,
        """;

    [Theory, BothDatabases]
    public async Task Each_adult_gets_one_mail_after_it_was_confirmed_and_its_link_lets_them_in(DatabaseKind kind)
    {
        var mail = new MailSink();
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, mail.Settings);
        await using var portal = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);
        var address = await lead.SendSheetAsync(Sheet);
        var page = await lead.ReadAsync(address);
        Assert.Equal((int[])[2, 0, 0, 4], PlaceSteps.Totals(page));
        Assert.Contains("One mail goes to this address after you have confirmed.", page, StringComparison.Ordinal);
        Assert.Contains("Children’s data are never collected here.", page, StringComparison.Ordinal);
        Assert.DoesNotContain("555-0199", page, StringComparison.Ordinal);
        Assert.Equal(0, await host.SendLettersAsync());

        await lead.PressAsync(address, "store");
        await host.SendLettersAsync();
        var letters = new[] { await mail.NextAsync(), await mail.NextAsync() }.ToDictionary(l => l.To);
        Assert.Contains("Hello Ines Vale", letters["ines@example.test"].Text, StringComparison.Ordinal);
        await using (var db = host.OpenDb())
        {
            Assert.DoesNotContain(MailSink.PathIn(letters["ines@example.test"])[^20..], string.Concat(await db.OutgoingLetters.Select(l => l.Text).ToListAsync()), StringComparison.Ordinal);
        }

        await host.Anonymous().AcceptAsync(MailSink.PathIn(letters["ines@example.test"]));
        await using (var db = host.OpenDb())
        {
            Assert.Equal(world.One.Schools[0].Id, await (from m in db.Memberships join p in db.Users on m.PersonId equals p.Id where p.Email == "ines@example.test" select m.SchoolId).SingleAsync());
        }

        var again = await lead.ReadAsync(await lead.SendSheetAsync(Sheet));
        Assert.Equal((int[])[0, 0, 2, 4], PlaceSteps.Totals(again));

        var undone = await lead.PressAsync(address, "undo");
        Assert.Contains("Taken back: 1 of 2.", undone, StringComparison.Ordinal);
        Assert.Contains("It stays: the invitation was accepted.", undone, StringComparison.Ordinal);
        var late = await host.Anonymous().GetAsync(MailSink.PathIn(letters["ola@example.test"]));
        Assert.Contains("withdrawn", await late.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_coordinator_brings_in_no_people_and_sees_no_import_of_them(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var portal = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);
        var stranger = await host.ClientAs(Role.ProgrammeLead, world.Two);
        var address = await lead.SendSheetAsync(Sheet);

        Assert.Contains("Inviting people is for the programme lead", await coordinator.RefusedSheetAsync(Sheet), StringComparison.Ordinal);
        foreach (var other in new[] { coordinator, stranger })
        {
            Assert.Equal(System.Net.HttpStatusCode.NotFound, (await other.GetAsync(address)).StatusCode);
            Assert.DoesNotContain(address, await other.ReadAsync("/places/import"), StringComparison.Ordinal);
        }
    }
}

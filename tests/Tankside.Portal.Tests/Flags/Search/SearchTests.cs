using Tankside.Hatchery.Kit;
using Tankside.Hatchery.People;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Flags.Search;

/// <summary>One box for everything that has a name, and nothing of what the asker may not see.</summary>
public class SearchTests
{
    [Theory, BothDatabases]
    public async Task Every_word_has_to_stand_in_it_in_any_order_and_however_it_is_accented(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var one = world.One;
        await host.SeedAsync(db =>
        {
            db.Schools.Single(s => s.Id == one.Schools[0].Id).Name = "Escuela Niño Jesús";
            db.Add(new KitItem { Id = Guid.NewGuid(), ProgrammeId = one.Programme.Id, Serial = "CH-77", Make = "quarter horse", InTankId = one.Tanks[0].Id });
        });
        var lead = await host.ClientAs(Role.ProgrammeLead, one);

        var school = await lead.GetStringAsync("/search?q=JESUS+nino");
        Assert.All(["A001", $"/schools/{one.Schools[0].Id}"], part => Assert.Contains(part, school, StringComparison.Ordinal));
        Assert.Contains("in tank A001", await lead.ReadAsync("/search?q=horse"), StringComparison.Ordinal);
        Assert.Contains($"/releases/permits/{one.Permit.Id}", await lead.GetStringAsync($"/search?q={Uri.EscapeDataString(one.Permit.Number)}"), StringComparison.Ordinal);
        Assert.Contains("/settings/oxygen.act.egg", await lead.GetStringAsync("/search?q=oxygen+eggs+act"), StringComparison.Ordinal);
        Assert.Contains("/people/", await lead.GetStringAsync($"/search?q={Uri.EscapeDataString(one.People[Role.Teacher].Name)}"), StringComparison.Ordinal);
        Assert.Contains("Nothing fits “jesus horse”.", await lead.ReadAsync("/search?q=jesus+horse"), StringComparison.Ordinal);
        Assert.Contains("What do you look for?", await lead.ReadAsync("/search?q=+"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task Nobody_finds_what_they_have_no_page_of(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var one = world.One;
        var (teacher, kitHand) = (await host.ClientAs(Role.Teacher, one), await host.ClientAs(Role.KitHand, one));

        Assert.Contains("One thing fits “A001”.", await teacher.ReadAsync("/search?q=A001"), StringComparison.Ordinal);
        Assert.Contains("Nothing fits", await teacher.ReadAsync("/search?q=A002"), StringComparison.Ordinal);
        foreach (var (client, words) in new[]
        {
            (teacher, one.Permit.Number), (kitHand, one.Permit.Number), (kitHand, one.People[Role.Teacher].Name), (kitHand, world.Two.Tanks[0].Code),
        })
        {
            Assert.Contains("Nothing fits", await client.ReadAsync($"/search?q={Uri.EscapeDataString(words)}"), StringComparison.Ordinal);
        }
    }
}

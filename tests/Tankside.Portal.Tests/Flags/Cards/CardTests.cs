using System.Net;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Tests.Readings;
using Tankside.Portal.Tests.Shell;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Flags.Cards;

/// <summary>The cards that hang beside a tank, read back from the paper.</summary>
public class CardTests
{
    private const string Phone = "555 0100";

    private static readonly string[] Kinds = ["substitute", "caretaker", "emergency"];

    [Theory, BothDatabases]
    public async Task The_substitute_reads_the_span_of_the_stage_the_dial_the_ticks_and_where_to_send_them(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var teacher = await host.ClientAs(Role.Teacher, world.One);

        var eggs = Assert.Single((await PrintedPdf.GetAsync(teacher, "/tanks/A001/cards/substitute.pdf?lang=en")).Pages);
        await host.AcceptAsync(Sent.Seen(world.One.Tanks[0], host.Now, new Observation { Swimming = Share.All }));
        await host.JudgeAsync();
        var fry = Assert.Single((await PrintedPdf.GetAsync(teacher, "/tanks/A001/cards/substitute.pdf?lang=en")).Pages);

        Says(eggs, "Tank A001: you stand in today", "Birch Lane School, Room 1", "Wednesday 3 February 2027", "Safe today: 39.2 to 54 °F (4 to 12.2 °C).");
        Says(eggs, "set to 50.9 °F (10.5 °C)", "Is the water moving?", "Are there bubbles?", "Is the water up to the line?", "Is the water clear?", "no names are asked");
        Says(eggs, "Never unplug", "No soap", "No tap water that was not treated", "No medicine", "nobody releases them", "Coordinator A, telephone: ____");
        Assert.Equal(4, eggs.Words.Count(w => w.Text == "Yes"));
        Assert.Equal([$"{PortalHost.PublicUrl}t/{world.One.RoomCodes[0].Code}"], eggs.Codes);
        Says(eggs, RoomCodes.Grouped(world.One.RoomCodes[0].Code));
        Says(fry, "Safe today: 37.4 to 60.1 °F (3 to 15.6 °C).", "Any dead fry?");
    }

    [Theory, BothDatabases]
    public async Task The_caretaker_reads_what_must_hum_and_which_days_the_own_school_is_closed(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await host.SeedAsync(db => db.AddRange(Closed(world.One, world.One.Schools[0], 15), Closed(world.One, world.One.Schools[1], 22)));

        var page = Assert.Single((await PrintedPdf.GetAsync(await host.ClientAs(Role.KitHand, world.One), "/tanks/A001/cards/caretaker.pdf?lang=en")).Pages);

        Says(page, "Tank A001: nights and holidays", "What hums here is meant to hum", "Leave plug, timer, power strip and circuit on", "no spray", "Without power the air lasts");
        Says(page, "It leaks", "The water is warm: over 54 °F (12.2 °C)", "It is silent", "ground-fault protection", "Then call, at any hour.");
        Says(page, "Closed from Saturday 13 February to Sunday 21 February");
        Assert.DoesNotContain("28 February", page.Text, StringComparison.Ordinal);
        Assert.Empty(page.Codes);
    }

    [Theory, BothDatabases]
    public async Task The_emergency_card_has_this_tanks_hours_its_ice_and_every_first_aid(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var teacher = await host.ClientAs(Role.Teacher, world.One);

        var bare = Assert.Single((await PrintedPdf.GetAsync(teacher, "/tanks/A001/cards/emergency.pdf?lang=en")).Pages);
        await using (var db = host.OpenDb())
        {
            await db.Ledger.Where(e => e.TankId == world.One.Tanks[0].Id).ExecuteDeleteAsync();
        }

        var empty = Assert.Single((await PrintedPdf.GetAsync(teacher, "/tanks/A001/cards/emergency.pdf?lang=en")).Pages);

        Says(bare, "never a child at a plug", "until air is short: about 6 hours, at the worst 1 hour.", "Chiller dead, pump running, until 59 °F (15 °C): about");
        Says(bare, "Ice for its 208 L (55 gal): up to", "Power cut", "Battery air first", "Chiller dead", "Water stands still", "Stir gently beside the");
        Says(bare, "It leaks", "Everybody off the wet floor", "Tap water or bleach got in", "Chlorine neutraliser in now", "ground-fault protection (GFCI)", "Coordinator A");
        Says(empty, "No fish are in it by its ledger", "Ice for its 208 L");
    }

    [Theory]
    [InlineData(0)]
    [InlineData(45)]
    [InlineData(120)]
    public async Task Every_card_of_every_stage_is_one_page_in_each_language_however_long_the_names_are(int days)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        await LengthenAsync(host, world);
        host.Time.Advance(TimeSpan.FromDays(days));
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);

        foreach (var kind in Kinds)
        {
            foreach (var paper in new[] { "letter", "a4" })
            {
                var all = await PrintedPdf.GetAsync(lead, $"/tanks/cards/{kind}.pdf?lang=both&paper={paper}");

                Assert.Equal(4, all.Pages.Count);
                Assert.Equal(["A001", "A001", "A002", "A002"], all.Pages.Select(p => p.Words.First(w => w.Text.StartsWith("A00", StringComparison.Ordinal)).Text.Trim(':')));
                Assert.All(all.Pages, page =>
                {
                    Assert.All(page.Words, w => Assert.True(w.Left > 28 && w.Right < page.Width - 28 && w.Bottom < page.Height - 28, $"{w} leaves the {kind} card"));
                    Assert.DoesNotContain("…", page.Text, StringComparison.Ordinal);
                });
            }
        }
    }

    [Fact]
    public async Task In_Spanish_nothing_stays_English()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        var teacher = await host.ClientAs(Role.Teacher, world.One);
        teacher.DefaultRequestHeaders.Add("Accept-Language", "es-MX,es;q=0.9");

        var (substitute, caretaker, emergency) = (await Of("substitute"), await Of("caretaker"), await Of("emergency"));

        Says(substitute, "usted cubre la clase hoy", "Bien hoy: de 39,2 a 54 °F (de 4 a 12,2 °C).", "¿Se mueve el agua?", "Nada de jabón", "teléfono: ____");
        Says(caretaker, "noches y vacaciones", "Lo que zumba aquí debe zumbar", "protección de falla a tierra");
        Says(emergency, "Corte de luz", "Primero aire con pilas", "más o menos 6 horas, en el peor caso 1 hora.", "Hielo para sus 208 L");
        Assert.All(new[] { substitute, caretaker, emergency }, p => Assert.DoesNotMatch(@"\b(the|and|water|with|of)\b", p.Text));

        async Task<PrintedPage> Of(string kind) => Assert.Single((await PrintedPdf.GetAsync(teacher, $"/tanks/A001/cards/{kind}.pdf")).Pages);
    }

    [Theory, BothDatabases]
    public async Task A_number_is_printed_only_where_one_was_given_and_a_coordinator_or_lead_prints(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var coordinator = world.One.People[Role.Coordinator].Id;
        await using (var db = host.OpenDb())
        {
            await db.Users.Where(p => p.Id == coordinator).ExecuteUpdateAsync(set => set.SetProperty(p => p.PhoneNumber, Phone));
        }

        Says(Assert.Single((await PrintedPdf.GetAsync(await host.ClientAs(Role.Coordinator, world.One), "/tanks/A001/cards/emergency.pdf?lang=en")).Pages), $"Coordinator A, telephone: {Phone}");
        foreach (var role in new[] { Role.Teacher, Role.KitHand })
        {
            var client = await host.ClientAs(role, world.One);
            Assert.DoesNotContain(Phone, (await PrintedPdf.GetAsync(client, "/tanks/A001/cards/emergency.pdf?lang=en")).Text, StringComparison.Ordinal);
            Assert.DoesNotContain(Phone, await client.ReadAsync("/tanks/A001/cards"), StringComparison.Ordinal);
        }
    }

    [Theory, BothDatabases]
    public async Task A_teacher_prints_the_own_schools_tanks_and_a_closed_tank_has_no_card(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var (teacher, lead) = (await host.ClientAs(Role.Teacher, world.One), await host.ClientAs(Role.ProgrammeLead, world.One));

        Assert.DoesNotContain("A002", (await PrintedPdf.GetAsync(teacher, "/tanks/cards/caretaker.pdf")).Text, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, (await teacher.GetAsync("/tanks/A002/cards/caretaker.pdf")).StatusCode);
        await using (var db = host.OpenDb())
        {
            await db.Tanks.Where(t => t.Code == "A001").ExecuteUpdateAsync(set => set.SetProperty(t => t.ClosedAt, host.Now));
        }

        Assert.Single((await PrintedPdf.GetAsync(lead, "/tanks/cards/caretaker.pdf")).Pages);
        Assert.Equal(HttpStatusCode.NotFound, (await teacher.GetAsync("/tanks/A001/cards")).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await teacher.GetAsync("/tanks/cards/caretaker.pdf")).StatusCode);
    }

    [Fact]
    public async Task The_page_shows_what_each_card_says_and_the_tank_leads_to_it()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        var teacher = await host.ClientAs(Role.Teacher, world.One);

        var page = await teacher.ReadAsync("/tanks/A001/cards?lang=es&paper=a4");

        Assert.Contains("Cards to print", await teacher.ReadAsync("/tanks/A001"), StringComparison.Ordinal);
        Assert.Contains("Three cards to hang beside A001", page, StringComparison.Ordinal);
        Assert.Contains("Of all your school’s tanks", page, StringComparison.Ordinal);
        Assert.Contains("Tanque A001: emergencia", page, StringComparison.Ordinal);
        Assert.Contains("Nada de jabón", page, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("lang=de", "lang=en, lang=es or lang=both")]
    [InlineData("paper=a3", "paper=a4 or paper=letter")]
    public async Task A_wish_that_it_does_not_know_is_told(string wish, string told)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;

        var answer = await (await host.ClientAs(Role.Teacher, world.One)).GetAsync($"/tanks/A001/cards/emergency.pdf?{wish}");

        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Contains(told, await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    /// <summary>Words are read along the line: a column is read for itself too.</summary>
    private static void Says(PrintedPage page, params string[] texts)
    {
        var middle = page.Width * 0.48;
        var (left, right) = (page.Words.Where(w => w.Left < middle), page.Words.Where(w => w.Left >= middle));
        var read = string.Join('\n', page.Text, string.Join(' ', left.Select(w => w.Text)), string.Join(' ', right.Select(w => w.Text)));
        Assert.All(texts, t => Assert.Contains(t, read, StringComparison.Ordinal));
    }

    /// <summary>As long as the forms take them.</summary>
    private static async Task LengthenAsync(PortalHost host, TestWorld world)
    {
        var (school, room, name, phone) = (Long("School of the Alder Basin at the Upper ", 100), Long("Laboratory ", 60), Long("Maria de los Angeles ", 100), Long("+1 555 0100 ", 40));
        await using var db = host.OpenDb();
        await db.Schools.ExecuteUpdateAsync(set => set.SetProperty(s => s.Name, s => s.Name + school));
        await db.Classrooms.ExecuteUpdateAsync(set => set.SetProperty(r => r.Name, r => r.Name + room));
        await db.Users.ExecuteUpdateAsync(set => set.SetProperty(p => p.Name, name).SetProperty(p => p.PhoneNumber, phone));
        await db.Memberships.Where(m => m.Role == Role.KitHand).ExecuteUpdateAsync(set => set.SetProperty(m => m.Role, Role.Coordinator));
        db.AddRange(Enumerable.Range(0, 6).Select(i => new Closure
        {
            Id = Guid.NewGuid(),
            ProgrammeId = world.One.Programme.Id,
            FirstDay = new DateOnly(2027, 2, 8).AddDays(14 * i),
            LastDay = new DateOnly(2027, 2, 12).AddDays(14 * i),
            Reason = "Break",
        }));
        await db.SaveChangesAsync();

        static string Long(string part, int length) => string.Concat(Enumerable.Repeat(part, 20))[..length].Trim();
    }

    /// <summary>A week of February.</summary>
    private static Closure Closed(TestProgramme programme, School school, int monday) => new()
    {
        Id = Guid.NewGuid(),
        ProgrammeId = programme.Programme.Id,
        SchoolId = school.Id,
        FirstDay = new(2027, 2, monday),
        LastDay = new(2027, 2, monday + 4),
        Reason = "Winter break",
    };
}

using System.Net;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Portal.Tests.Accounts;
using Tankside.Portal.Tests.Shell;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Places;

/// <summary>Labels on paper.</summary>
public class LabelTests
{
    [Theory, BothDatabases]
    public async Task Each_label_opens_the_form_of_its_own_tank(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);

        var pdf = await PrintedPdf.GetAsync(coordinator, "/labels/all.pdf?paper=a4");

        Assert.Equal(world.One.RoomCodes.Select(c => $"{PortalHost.PublicUrl}t/{c.Code}").Order(), pdf.Codes.Order());
        Assert.Equal("Labels of Reed Valley", pdf.Title);
        foreach (var (code, label) in pdf.Codes.Zip(["A001", "A002"]))
        {
            Assert.Contains(label, await host.Anonymous().WordsAsync(new Uri(code).PathAndQuery), StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData("a4", 595)]
    [InlineData("letter", 612)]
    public async Task A_label_says_tank_school_room_and_the_address_to_type(string paper, int width)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        var teacher = await host.ClientAs(Role.Teacher, world.One);

        var page = Assert.Single((await PrintedPdf.GetAsync(teacher, $"/labels/{world.One.Schools[0].Id}.pdf?paper={paper}")).Pages);

        Assert.Equal(width, (int)Math.Round(page.Width));
        Assert.Contains("A001", page.Text, StringComparison.Ordinal);
        Assert.Contains("Birch Lane School", page.Text, StringComparison.Ordinal);
        Assert.Contains("Room 1", page.Text, StringComparison.Ordinal);
        Assert.Contains("tankside.example.test/t/", page.Text, StringComparison.Ordinal);
        Assert.Contains(RoomCodes.Grouped(world.One.RoomCodes[0].Code), page.Text, StringComparison.Ordinal);
        Assert.Contains("Scan it and write down", page.Text, StringComparison.Ordinal);
        Assert.Contains("Escanéalo y escribe", page.Text, StringComparison.Ordinal);
        Assert.Contains($"t/{RoomCodes.Grouped(world.One.RoomCodes[0].Code)}", page.Text.Replace("/ ", "/", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, (await host.Anonymous().GetAsync($"/t/{RoomCodes.Grouped(world.One.RoomCodes[0].Code)}")).StatusCode);
    }

    [Fact]
    public async Task Eight_labels_fit_on_a_sheet_and_long_names_stay_on_their_own()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        const string longName = "Nuestra Señora de Łódź Consolidated Regional Elementary and Middle School of the Upper Alder Basin";
        await host.SeedAsync(db =>
        {
            db.Schools.Where(s => s.Id == world.One.Schools[0].Id).ExecuteUpdate(set => set.SetProperty(s => s.Name, longName));
            for (var i = 10; i < 18; i++)
            {
                AddTank(db, world.One, i, withCode: true);
            }
        });

        var pdf = await PrintedPdf.GetAsync(await host.ClientAs(Role.ProgrammeLead, world.One), $"/labels/{world.One.Schools[0].Id}.pdf?paper=a4");

        Assert.Equal([8, 1], pdf.Pages.Select(p => p.Codes.Count));
        Assert.Equal(9, pdf.Codes.Distinct().Count());
        Assert.Contains("Señora de Łódź", pdf.Text, StringComparison.Ordinal);
        Assert.Contains("Basin", pdf.Text, StringComparison.Ordinal);
        // No word crosses the cut between the two columns or leaves the sheet.
        Assert.All(pdf.Pages[0].Words, w => Assert.True(w.Right < 297.6 || w.Left > 297.6, $"{w} lies across the cut"));
        Assert.All(pdf.Pages[0].Words, w => Assert.True(w.Left > 28 && w.Right < 567 && w.Top > 28 && w.Bottom < 814, $"{w} leaves the sheet"));
    }

    [Theory, BothDatabases]
    public async Task A_teacher_has_the_labels_of_the_own_school_alone(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var teacher = await host.ClientAs(Role.Teacher, world.One);

        Assert.Equal([$"{PortalHost.PublicUrl}t/{world.One.RoomCodes[0].Code}"], (await PrintedPdf.GetAsync(teacher, "/labels/all.pdf")).Codes);
        Assert.Equal(HttpStatusCode.NotFound, (await teacher.GetAsync($"/labels/{world.One.Schools[1].Id}.pdf")).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await teacher.GetAsync("/labels/tanks/A002.pdf")).StatusCode);
        Assert.DoesNotContain("Mill Pond School", await teacher.WordsAsync("/labels"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_paper_that_there_is_not_is_told_and_no_file_comes()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;

        var answer = await (await host.ClientAs(Role.Coordinator, world.One)).GetAsync("/labels/all.pdf?paper=a3");

        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Contains("paper=a4 or paper=letter", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_programme_without_tanks_is_told_when_there_will_be_labels(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await using var db = host.OpenDb();
        await db.Tanks.ExecuteUpdateAsync(set => set.SetProperty(t => t.ClosedAt, host.Now));
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);

        Assert.Contains("There is no open tank yet.", await lead.WordsAsync("/labels"), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, (await lead.GetAsync("/labels/all.pdf")).StatusCode);
    }

    internal static Tank AddTank(HatcheryDb db, TestProgramme programme, int number, bool withCode)
    {
        var room = new Classroom { Id = Guid.NewGuid(), SchoolId = programme.Schools[0].Id, Name = $"The aquarium corner of room {number} behind the library" };
        var tank = new Tank { Id = Guid.NewGuid(), ProgrammeId = programme.Programme.Id, ClassroomId = room.Id, Code = $"{programme.Letter}{number:000}", Litres = 208, SetPointC = 10.5 };
        db.AddRange(room, tank);
        if (withCode)
        {
            db.Add(new RoomCode { Id = Guid.NewGuid(), TankId = tank.Id, Code = RoomCodes.Make(Random.Shared.Next), IssuedAt = TestWorld.Now });
        }

        return tank;
    }
}

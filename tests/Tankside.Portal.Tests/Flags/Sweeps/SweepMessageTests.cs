using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.Flags.Sweeps;
using Tankside.Portal.Tests.Accounts;
using Tankside.Storage;
using Tankside.Testing;
using static Tankside.Portal.Tests.Flags.Sweeps.SweepSteps;

namespace Tankside.Portal.Tests.Flags.Sweeps;

/// <summary>One message to every teacher of a marked area.</summary>
public class SweepMessageTests
{
    [Theory, BothDatabases]
    public async Task Every_teacher_of_the_area_gets_one_letter_in_their_own_language(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var one = world.One;
        var (luz, elsewhere) = (NewTeacher("Luz Ortega", "luz@example.test", "es"), NewTeacher("Oriel South", "south@example.test", "en"));
        await host.SeedAsync(db => db.AddRange(luz, elsewhere, TeachesAt(luz, one.Schools[0]), TeachesAt(elsewhere, one.Schools[1])));
        var coordinator = await host.ClientAs(Role.Coordinator, one);
        var board = await coordinator.MarkAsync("north", PowerCut, ("Input.Note", "Line down at the river."));

        await coordinator.PressAsync(board, "message");
        using var again = await coordinator.PostFormAsync(board, new Dictionary<string, string>(), "message");
        Assert.Contains("2 teachers were written to, today 08:15: 2 on the way.", await coordinator.ReadAsync(board), StringComparison.Ordinal);

        var letters = await host.LettersAsync();
        Assert.Equal(["luz@example.test", one.EmailOf(Role.Teacher)], letters.Select(l => l.To));
        Assert.Equal("Corte de luz en la zona north: ¿cómo está su tanque?", letters[0].Subject);
        Assert.Contains("Primero aire a pilas", letters[0].Text, StringComparison.Ordinal);
        Assert.Equal("Power cut in the area north: how is your tank?", letters[1].Subject);
        Assert.Contains("The power is out in the area north since Wed 3 Feb 08:15. Line down at the river.", letters[1].Text, StringComparison.Ordinal);
        Assert.True(letters[1].Text.IndexOf("Battery air first", StringComparison.Ordinal) < letters[1].Text.IndexOf("Then ice", StringComparison.Ordinal));
        Assert.All(letters, l => Assert.Contains($"\n{PortalHost.PublicUrl}sweep/", l.Text, StringComparison.Ordinal));
        Assert.All(letters, l => Assert.Equal((LetterState.Waiting, one.Programme.Id), (l.State, l.ProgrammeId)));
        Assert.NotEqual(LinkIn(letters[0]), LinkIn(letters[1]));
    }

    [Theory]
    [InlineData("555-0162", "\nYou may also text or ring Coordinator A, 555-0162.\n\n", "\nTambién puede enviar un mensaje de texto o llamar a Coordinator A, 555-0162.\n\n")]
    [InlineData(null, "Please name no child in a note.\n\n", "No escriba el nombre de ningún niño en una nota.\n\n")]
    public async Task Who_marked_it_is_named_to_be_rung_only_with_a_number(string? phone, string english, string spanish)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        var luz = NewTeacher("Luz Ortega", "a-luz@example.test", "es");
        await host.SeedAsync(db =>
        {
            db.AddRange(luz, TeachesAt(luz, world.One.Schools[0]));
            db.Users.Single(p => p.Id == world.One.People[Role.Coordinator].Id).PhoneNumber = phone;
        });
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);

        await coordinator.PressAsync(await coordinator.MarkAsync("north", PowerCut), "message");

        var letters = await host.LettersAsync();
        Assert.Contains(spanish, letters[0].Text, StringComparison.Ordinal);
        Assert.Contains(english, letters[1].Text, StringComparison.Ordinal);
        Assert.Equal(phone is not null, letters.All(l => l.Text.Contains("Coordinator A", StringComparison.Ordinal)));
    }

    [Theory, BothDatabases]
    public async Task Coordinators_who_press_at_the_same_moment_write_to_nobody_twice(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);
        var sweep = Guid.Parse((await coordinator.MarkAsync("north", PowerCut)).Split('/')[^1]);
        var user = new CurrentUser(world.One.People[Role.Coordinator].Id, world.One.Programme.Id, Role.Coordinator, null);

        var written = await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => host.CallAsync<MessageTeachers, int?>(m => m.HandleAsync(user, sweep, default))));

        Assert.Equal(1, written.Sum());
        Assert.Single(await host.LettersAsync());
    }

    [Fact]
    public async Task A_teacher_who_joins_later_can_be_written_to_alone()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);
        var (board, _) = await host.MarkedAndAskedAsync(coordinator, Snow);
        var late = NewTeacher("Late Joiner", "late@example.test", "en");
        await host.SeedAsync(db => db.AddRange(late, TeachesAt(late, world.One.Schools[0])));

        Assert.Contains("Message the 1 not yet written to", await coordinator.ReadAsync(board), StringComparison.Ordinal);
        await coordinator.PressAsync(board, "message");

        Assert.Equal(["late@example.test", world.One.EmailOf(Role.Teacher)], (await host.LettersAsync()).Select(l => l.To));
    }

    [Fact]
    public async Task The_message_can_be_copied_and_a_known_number_texted_with_the_teachers_own_link()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        var luz = NewTeacher("Luz Ortega", "a-luz@example.test", "es", "555-0144");
        await host.SeedAsync(db => db.AddRange(luz, TeachesAt(luz, world.One.Schools[0])));
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);
        var board = await coordinator.MarkAsync("north", PowerCut);
        await coordinator.PressAsync(board, "message");

        var page = System.Net.WebUtility.HtmlDecode(await coordinator.GetStringAsync(board));

        Assert.Contains("Text back WELL, OFF (no power), TROUBLE or NOBODY THERE", page, StringComparison.Ordinal);
        Assert.Contains("Responda BIEN, SIN LUZ, PROBLEMA o NADIE", page, StringComparison.Ordinal);
        var link = LinkIn((await host.LettersAsync())[0]);
        Assert.Contains($"sms:5550144?&body={Uri.EscapeDataString("Reed Valley: No hay luz")}", page, StringComparison.Ordinal);
        Assert.Contains(Uri.EscapeDataString($"{PortalHost.PublicUrl.TrimEnd('/')}{link}"), page, StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_letter_goes_out_with_its_link_and_one_whose_mark_is_over_does_not(DatabaseKind kind)
    {
        var mail = new MailSink();
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, mail.Settings);
        await using var _ = host;
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);
        var (board, link) = await host.MarkedAndAskedAsync(coordinator, PowerCut);

        Assert.Equal(1, await host.SendLettersAsync());
        Assert.Equal(link, MailSink.PathIn(await mail.NextAsync()));
        Assert.Contains("1 teacher was written to, today 08:15: 1 sent.", await coordinator.ReadAsync(board), StringComparison.Ordinal);

        var late = NewTeacher("Late Joiner", "late@example.test", "en");
        await host.SeedAsync(db => db.AddRange(late, TeachesAt(late, world.One.Schools[0])));
        await coordinator.PressAsync(board, "message");
        await coordinator.PressAsync(board, "end");
        await host.SendLettersAsync();

        Assert.Equal(LetterState.GivenUp, (await host.LettersAsync()).Single(l => l.To == "late@example.test").State);
    }

    [Fact]
    public async Task The_board_says_whose_letter_waits_for_quiet_hours()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite, new MailSink().Settings);
        await using var _ = host;
        await host.SeedAsync(db =>
        {
            var teacher = db.Users.Single(p => p.Id == world.One.People[Role.Teacher].Id);
            (teacher.QuietFrom, teacher.QuietTo) = (new TimeOnly(7, 0), new TimeOnly(10, 0));
        });
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);
        var (board, _) = await host.MarkedAndAskedAsync(coordinator, PowerCut);

        await host.SendLettersAsync();

        Assert.Contains("1 waits for quiet hours to end: text or ring.", await coordinator.ReadAsync(board), StringComparison.Ordinal);
    }
}

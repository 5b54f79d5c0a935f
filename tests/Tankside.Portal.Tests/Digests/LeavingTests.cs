using System.Net;
using MimeKit;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts.Mail;
using Tankside.Portal.Tests.Accounts;
using Tankside.Storage;
using Tankside.Testing;
using SweepSteps = Tankside.Portal.Tests.Flags.Sweeps.SweepSteps;

namespace Tankside.Portal.Tests.Digests;

/// <summary>A kind of mail is left by the link at its end, and nothing else with it.</summary>
public class LeavingTests
{
    [Theory, BothDatabases]
    public async Task A_morning_mail_is_left_by_one_press_and_by_no_look(DatabaseKind kind)
    {
        await using var server = new MailServer();
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, new PortalHostSettings { Keys = server.Keys });
        await using var _ = host;
        var person = world.One.People[Role.Coordinator];
        await host.ChangePersonAsync(person, p => p.Language = "es");
        await host.WriteDigestsAsync();
        await host.SendLettersAsync();

        var mail = server.All.Single(m => m.To.Mailboxes.Single().Address == person.Email);
        var link = mail.Headers["List-Unsubscribe"]!.Trim('<', '>').Replace(" ", "", StringComparison.Ordinal);
        Assert.Equal("List-Unsubscribe=One-Click", mail.Headers["List-Unsubscribe-Post"]);
        Assert.StartsWith(PortalHost.PublicUrl, link, StringComparison.Ordinal);
        Assert.Contains(link, mail.TextBody, StringComparison.Ordinal);
        var nobody = host.Anonymous();
        var path = new Uri(link).PathAndQuery;
        var asked = await nobody.WordsAsync(path);
        Assert.Contains("¿No más correos de la mañana? La ronda de la mañana sigue en su página", asked, StringComparison.Ordinal);
        Assert.True((await PersonAsync(host, person.Id)).WantsDigest);

        var pressed = await PressAsync(nobody, path, "List-Unsubscribe", "One-Click");
        Assert.Equal(HttpStatusCode.OK, pressed.StatusCode);
        var after = await PersonAsync(host, person.Id);
        Assert.Equal((false, true, false), (after.WantsDigest, after.WantsUrgent, after.WithoutAnnouncements));

        await PressAsync(nobody, path, "again", "yes");
        Assert.True((await PersonAsync(host, person.Id)).WantsDigest);
    }

    [Theory, BothDatabases]
    public async Task A_letter_that_waits_is_not_sent_to_somebody_who_left_meanwhile(DatabaseKind kind)
    {
        var sink = new MailSink();
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, sink.Settings);
        await using var _ = host;
        await host.WriteDigestsAsync();
        await host.ChangePersonAsync(world.One.People[Role.Coordinator], p => p.WantsDigest = false);

        await host.SendLettersAsync();

        var letter = (await host.LettersAsync()).Single(l => l.PersonId == world.One.People[Role.Coordinator].Id);
        Assert.Equal((LetterState.GivenUp, LetterTroubles.NotNeeded + "they want no mails of this kind."), (letter.State, letter.Trouble));
    }

    [Fact]
    public async Task A_changed_secret_opens_nothing_and_a_plain_letter_has_no_such_line()
    {
        var sink = new MailSink();
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite, sink.Settings);
        await using var _ = host;
        await host.WriteLetterAsync(world.One, "a");
        await host.SendLettersAsync();

        var letter = await sink.NextAsync();
        Assert.Equal((null, "This is a."), (letter.Leave, letter.Text));
        Assert.Equal(HttpStatusCode.NotFound, (await PressAsync(host.Anonymous(), "/mail/guessed", "List-Unsubscribe", "One-Click")).StatusCode);
    }

    [Theory, BothDatabases]
    public async Task A_message_about_ones_own_tank_says_why_it_came_and_offers_no_way_out(DatabaseKind kind)
    {
        await using var server = new MailServer();
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, new PortalHostSettings { Keys = server.Keys });
        await using var _ = host;
        var luz = SweepSteps.NewTeacher("Luz Ortega", "luz@example.test", "es");
        await host.SeedAsync(db => db.AddRange(luz, SweepSteps.TeachesAt(luz, world.One.Schools[0])));
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);
        await SweepSteps.PressAsync(coordinator, await SweepSteps.MarkAsync(coordinator, "north", SweepSteps.Snow), "message");

        await host.SendLettersAsync();

        Assert.Equal(2, server.All.Count);
        Assert.All(server.All, m => Assert.Null(m.Headers["List-Unsubscribe"]));
        Assert.All(server.All, m => Assert.EndsWith($": {PortalHost.PublicUrl}me", m.TextBody!.TrimEnd(), StringComparison.Ordinal));
        Assert.Contains("Recibe este correo porque su escuela tiene un tanque en la zona marcada.", MailTo(server, "luz@example.test").TextBody, StringComparison.Ordinal);
        Assert.Contains("You get this mail because your school has a tank in the area that is marked.", MailTo(server, world.One.EmailOf(Role.Teacher)).TextBody, StringComparison.Ordinal);
        Assert.All(await host.LettersAsync(), l => Assert.DoesNotContain("You get this mail", l.Text, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("run 1 2 0900 3", "You get this mail because you have a part in this delivery of eggs.", false)]
    [InlineData("first-aid 1 2 3", "You get this mail because you teach at the school of this tank.", false)]
    [InlineData("arrival 1 2", "To get no more mails of this kind", true)]
    public async Task Deliveries_and_first_aid_stay_and_dead_on_arrival_is_left_with_the_urgent_mails(string key, string says, bool canBeLeft)
    {
        await using var server = new MailServer();
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite, new PortalHostSettings { Keys = server.Keys });
        await using var _ = host;
        var person = world.One.People[Role.Coordinator];
        await host.WriteLetterAsync(world.One, key);
        await host.SendLettersAsync();

        var mail = Assert.Single(server.All);
        Assert.Contains(says, mail.TextBody, StringComparison.Ordinal);
        Assert.Equal(canBeLeft, mail.Headers["List-Unsubscribe"] is not null);

        await host.ChangePersonAsync(person, p => (p.WantsDigest, p.WantsUrgent, p.WithoutAnnouncements, p.WithoutReminders) = (false, false, true, true));
        await host.WriteLetterAsync(world.One, key + " again");
        await host.SendLettersAsync();
        Assert.Equal(canBeLeft ? 1 : 2, server.All.Count);
    }

    private static MimeMessage MailTo(MailServer server, string address) => server.All.Single(m => m.To.Mailboxes.Single().Address == address);

    private static Task<HttpResponseMessage> PressAsync(HttpClient client, string path, string field, string value) =>
        client.PostAsync(path, new FormUrlEncodedContent(new Dictionary<string, string> { [field] = value }));

    private static async Task<Storage.People.Person> PersonAsync(PortalHost host, Guid id)
    {
        await using var db = host.OpenDb();
        return (await db.Users.FindAsync(id))!;
    }
}

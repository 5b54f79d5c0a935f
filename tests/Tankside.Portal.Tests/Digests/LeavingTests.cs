using System.Net;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts.Mail;
using Tankside.Portal.Tests.Accounts;
using Tankside.Storage;
using Tankside.Testing;

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
        Assert.Contains("¿No más correos de la mañana?", await nobody.WordsAsync(path), StringComparison.Ordinal);
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

    private static Task<HttpResponseMessage> PressAsync(HttpClient client, string path, string field, string value) =>
        client.PostAsync(path, new FormUrlEncodedContent(new Dictionary<string, string> { [field] = value }));

    private static async Task<Storage.People.Person> PersonAsync(PortalHost host, Guid id)
    {
        await using var db = host.OpenDb();
        return (await db.Users.FindAsync(id))!;
    }
}

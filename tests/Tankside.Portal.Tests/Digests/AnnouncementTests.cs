using Tankside.Hatchery.Digests;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.Accounts.Mail;
using Tankside.Portal.Digests.Announcements;
using Tankside.Portal.Tests.Accounts;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Digests;

/// <summary>Announcements through the page, the outbox and a real mail server.</summary>
public class AnnouncementTests
{
    private static readonly Dictionary<string, string> ToEverybody = new()
    {
        ["Input.Audience"] = nameof(Audience.Everybody),
        ["Input.SubjectEn"] = "Eggs at {school}",
        ["Input.TextEn"] = "Hello {name}, {tank} has {stage}.",
        ["Input.Do"] = AnnouncementForm.Look,
    };

    [Theory, BothDatabases]
    public async Task What_was_looked_at_goes_to_each_reader_after_the_grace_with_their_own_values(DatabaseKind kind)
    {
        await using var server = new MailServer();
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, new PortalHostSettings { Keys = server.Keys });
        await using var _ = host;
        var teacher = world.One.People[Role.Teacher];
        await host.ChangePersonAsync(teacher, p => p.Language = "es");
        await host.ChangePersonAsync(world.One.People[Role.KitHand], p => p.WithoutAnnouncements = true);
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);

        var (words, look) = await LookAsync(coordinator, ToEverybody);
        Assert.Contains("3 people get this: everybody except agency contacts.", words, StringComparison.Ordinal);
        Assert.Contains("KitHand A (has left the announcements)", words, StringComparison.Ordinal);
        Assert.Contains("Coordinator A: for {school} stands “your school”", words, StringComparison.Ordinal);
        var page = await SendAsync(coordinator, look);

        Assert.Contains("3 letters wait; nothing is sent yet.", await coordinator.WordsAsync(page), StringComparison.Ordinal);
        Assert.Equal(0, await host.SendLettersAsync());
        host.Time.Advance(Announcement.Grace);
        Assert.Equal(3, await host.SendLettersAsync());
        var theirs = server.All.Single(m => m.To.Mailboxes.Single().Address == teacher.Email);
        Assert.Equal($"Eggs at {world.One.Schools[0].Name}", theirs.Subject);
        Assert.Contains("(Este mensaje existe solo en inglés.)", theirs.TextBody, StringComparison.Ordinal);
        Assert.Contains($"Hello {teacher.Name}, {world.One.Tanks[0].Code} has ", theirs.TextBody, StringComparison.Ordinal);
        Assert.DoesNotContain("{", theirs.TextBody, StringComparison.Ordinal);
        Assert.Contains("Letters: 3 sent.", await coordinator.WordsAsync(page), StringComparison.Ordinal);
        Assert.DoesNotContain((await host.LettersAsync()).Select(l => l.Text), t => t.Contains($"/{LeaveLinks.Path}/", StringComparison.Ordinal));
    }

    [Theory, BothDatabases]
    public async Task Sent_from_two_portals_at_once_it_is_one_announcement(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await using var neighbour = host.Neighbour();
        var user = new CurrentUser(world.One.People[Role.Coordinator].Id, world.One.Programme.Id, Role.Coordinator, null);
        var form = new AnnouncementForm { Id = Guid.NewGuid(), Audience = nameof(Audience.Everybody), SubjectEs = "Huevos", TextEs = "Hola, {name}." };
        var look = (await host.CallAsync<LookAtAnnouncement, AnnouncementLook?>(l => l.HandleAsync(user, form, (_, why) => Assert.Fail(why), CancellationToken.None)))!;

        var kept = await Task.WhenAll(Enumerable.Range(0, 6).Select(i => Task.Run(() =>
            (i % 2 == 0 ? host : neighbour).CallAsync<WriteAnnouncement, bool>(w => w.HandleAsync(user, form.Id, look, CancellationToken.None)))));

        Assert.All(kept, Assert.True);
        Assert.Equal(4, (await host.LettersAsync()).Count);
        host.Time.Advance(Announcement.Grace);
        neighbour.Time.Advance(Announcement.Grace);
        Assert.Equal(4, (await Task.WhenAll(host.SendLettersAsync(), neighbour.SendLettersAsync())).Sum());
    }

    [Theory, BothDatabases]
    public async Task It_is_taken_back_until_the_first_letter_is_out_and_not_after(DatabaseKind kind)
    {
        var sink = new MailSink();
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, sink.Settings);
        await using var _ = host;
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);
        var first = await SendAsync(coordinator, (await LookAsync(coordinator, ToEverybody)).Form);
        var second = await SendAsync(coordinator, (await LookAsync(coordinator, ToEverybody)).Form);

        await coordinator.PostFormAsync(first, new Dictionary<string, string>(), "take-back");
        host.Time.Advance(Announcement.Grace);
        Assert.Equal(4, await host.SendLettersAsync());
        var user = new CurrentUser(world.One.People[Role.Coordinator].Id, world.One.Programme.Id, Role.Coordinator, null);
        var late = await host.CallAsync<TakeBackAnnouncement, Notice?>(t => t.HandleAsync(user, Guid.Parse(second.Split('/')[^1]), CancellationToken.None));

        Assert.Contains("cannot be taken back any more", late!.Text, StringComparison.Ordinal);
        Assert.Contains("not one letter went out", await coordinator.WordsAsync(first), StringComparison.Ordinal);
        Assert.Contains("Letters: 4 sent.", await coordinator.WordsAsync(second), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("Hello {nmae}", "{nmae} is not known here. The known ones are {name}, {school}")]
    [InlineData("Hello {name", "A brace stands alone.")]
    [InlineData("", "Fill in both subject and text")]
    public async Task What_cannot_be_filled_in_is_refused_and_nothing_is_kept(string text, string why)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);

        var (words, _) = await LookAsync(coordinator, new(ToEverybody) { ["Input.TextEn"] = text, ["Input.Do"] = AnnouncementForm.Send });

        Assert.Contains(why, words, StringComparison.Ordinal);
        Assert.Empty(await host.LettersAsync());
    }

    [Fact]
    public async Task What_was_changed_after_the_look_is_shown_again_and_not_sent()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);
        var (_, look) = await LookAsync(coordinator, ToEverybody);

        var (words, _) = await LookAsync(coordinator, new(look) { ["Input.TextEn"] = "Something else.", ["Input.Do"] = AnnouncementForm.Send });

        Assert.Contains("Nothing was sent: the text, the time or the readers are not those that you looked at last.", words, StringComparison.Ordinal);
        Assert.Empty(await host.LettersAsync());
    }

    [Fact]
    public async Task A_shipped_text_is_changed_and_given_back()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);

        await coordinator.PostFormAsync("/announcements/templates/welcome", new Dictionary<string, string> { ["Input.SubjectEn"] = "Our own welcome" }, "template");
        Assert.Contains("Our own welcome", await coordinator.GetStringAsync("/announcements/new?template=welcome"), StringComparison.Ordinal);
        await coordinator.PostFormAsync("/announcements/templates/welcome", new Dictionary<string, string>(), "remove");

        Assert.Contains(ShippedTemplates.All[0].Wording.SubjectEn, await coordinator.GetStringAsync("/announcements/new?template=welcome"), StringComparison.Ordinal);
    }

    [Fact]
    public void Every_shipped_text_stands_in_both_languages_and_knows_its_placeholders() => Assert.All(ShippedTemplates.All, t =>
    {
        Assert.True(t.Wording.Has("en") && t.Wording.Has("es"));
        Assert.All([t.Wording.SubjectEn, t.Wording.TextEn, t.Wording.SubjectEs, t.Wording.TextEs], text => Assert.Null(Placeholders.Check(text)));
        Assert.InRange(t.Wording.TextEs.Length, 1, Announcement.LongestText);
    });

    /// <summary>Presses a button of the form; gives what is read then, and the form as it stands with what was looked at.</summary>
    private static async Task<(string Words, Dictionary<string, string> Form)> LookAsync(HttpClient client, Dictionary<string, string> fields)
    {
        var id = Guid.NewGuid().ToString();
        var answer = await client.PostFormAsync("/announcements/new", new Dictionary<string, string> { ["Input.Id"] = id }.Concat(fields).DistinctBy(f => f.Key).ToDictionary(), "announcement");
        var html = await answer.Content.ReadAsStringAsync();
        var seen = html.Split("name=\"Input.Seen\" value=\"") is [_, var rest] ? rest.Split('"')[0] : "";
        return (await answer.WordsAsync(), new(fields) { ["Input.Id"] = id, ["Input.Seen"] = seen, ["Input.Do"] = AnnouncementForm.Send });
    }

    /// <summary>Sends what was looked at; gives the announcement's page.</summary>
    private static async Task<string> SendAsync(HttpClient client, Dictionary<string, string> look)
    {
        var sent = await client.PostFormAsync("/announcements/new", look, "announcement");
        Assert.NotNull(sent.Headers.Location);
        return $"/announcements/{look["Input.Id"]}";
    }
}

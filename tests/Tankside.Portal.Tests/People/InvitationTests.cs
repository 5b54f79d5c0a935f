using System.Net;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.Tests.Accounts;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.People;

public class InvitationTests
{
    private const string Email = "ines@example.test";

    [Theory, BothDatabases]
    public async Task An_invited_teacher_comes_in_by_the_mailed_link_once(DatabaseKind kind)
    {
        var mail = new MailSink();
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, mail.Settings);
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);
        await lead.InviteAsync(Email, Role.Teacher, world.One.Schools[1].Id);
        var letter = await mail.NextAsync();
        var (invited, link) = (host.Anonymous(), MailSink.PathIn(letter));

        Assert.Contains("teacher at Mill Pond School", letter.Text, StringComparison.Ordinal);
        Assert.Contains("Wednesday 17 February 2027, 08:15", letter.Text, StringComparison.Ordinal);
        var page = await invited.WordsAsync(link);
        var accepted = await invited.AcceptAsync(link);

        Assert.Contains("Welcome to Reed Valley You are invited as teacher at Mill Pond School", page, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Found, accepted.StatusCode);
        Assert.Contains("You are here as teacher.", await invited.WordsAsync("/not-yours"), StringComparison.Ordinal);
        var again = await host.Anonymous().GetAsync(link);
        Assert.Equal(HttpStatusCode.Gone, again.StatusCode);
        Assert.Contains("This invitation has been accepted.", await again.WordsAsync(), StringComparison.Ordinal);
        await using var db = host.OpenDb();
        var person = await db.Users.SingleAsync(p => p.Email == Email);
        var membership = await db.Memberships.SingleAsync(m => m.PersonId == person.Id);
        Assert.Equal(("Ines Vale", Role.Teacher, world.One.Schools[1].Id, world.One.Programme.Id), (person.Name, membership.Role, membership.SchoolId!.Value, membership.ProgrammeId));
    }

    [Theory, BothDatabases]
    public async Task The_link_is_shown_once_and_stands_in_no_address_and_not_in_the_database(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, new MailSink().Settings);
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);

        var sent = await lead.PostFormAsync("/people", PeopleSteps.Invitation(Email, Role.KitHand, null), "invite");
        var first = await lead.GetAsync(sent.Headers.Location);
        var second = await lead.GetAsync(sent.Headers.Location);

        var secret = (await first.LinkToHandOnAsync())!.Split('/')[^1];
        Assert.Null(await second.LinkToHandOnAsync());
        Assert.DoesNotContain(secret, sent.Headers.ToString(), StringComparison.Ordinal);
        await using var db = host.OpenDb();
        Assert.NotEqual(secret, (await db.Invitations.SingleAsync()).SecretHash);
    }

    [Theory, BothDatabases]
    public async Task An_invitation_runs_out_after_fourteen_days(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, new MailSink().Settings);
        await using var _ = host;
        var link = await LinkAsync(host, world, Role.KitHand);

        host.Time.Advance(Invitation.Lifetime - TimeSpan.FromSeconds(1));
        var lastMoment = await host.Anonymous().GetAsync(link);
        var open = await lastMoment.Content.ReadAsStringAsync();
        var late = host.Anonymous();
        var seen = await late.GetStringAsync(link);
        host.Time.Advance(TimeSpan.FromSeconds(1));
        var sentLate = await late.PostSeenAsync(link, seen, "accept", PeopleSteps.Acceptance());

        Assert.Contains("Welcome to Reed Valley", open, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Gone, sentLate.StatusCode);
        Assert.Contains("This invitation ran out. It worked until Wednesday 17 February 2027, 08:15.", await sentLate.WordsAsync(), StringComparison.Ordinal);
        await AssertNobodyCameAsync(host);
    }

    [Theory, BothDatabases]
    public async Task A_withdrawn_invitation_lets_nobody_in(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, new MailSink().Settings);
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);
        var link = (await (await lead.InviteAsync(Email, Role.KitHand)).LinkToHandOnAsync())!;
        await using var db = host.OpenDb();
        var id = (await db.Invitations.SingleAsync()).Id.ToString();

        await lead.PostFormAsync("/people", new Dictionary<string, string> { ["Invitation"] = id }, "withdraw");

        Assert.Contains("This invitation was withdrawn.", await host.Anonymous().WordsAsync(link), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_newer_invitation_replaces_the_one_before(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, new MailSink().Settings);
        await using var _ = host;
        var first = await LinkAsync(host, world, Role.KitHand);

        var second = await LinkAsync(host, world, Role.Coordinator);

        Assert.Contains("This invitation was withdrawn.", await host.Anonymous().WordsAsync(first), StringComparison.Ordinal);
        Assert.Contains("You are invited as coordinator", await host.Anonymous().WordsAsync(second), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task Two_who_send_the_same_link_at_once_become_one_member(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, new MailSink().Settings);
        await using var _ = host;
        var link = await LinkAsync(host, world, Role.KitHand);
        var both = new[] { host.Anonymous(), host.Anonymous() };
        var seen = await Task.WhenAll(both.Select(c => c.GetStringAsync(link)));

        var answers = await Task.WhenAll(both.Zip(seen, (c, page) => c.PostSeenAsync(link, page, "accept", PeopleSteps.Acceptance())));

        Assert.Equal([HttpStatusCode.Found, HttpStatusCode.Gone], answers.Select(a => a.StatusCode).Order());
        await using var db = host.OpenDb();
        Assert.Single(await db.Users.Where(p => p.Email == Email).ToListAsync());
    }

    [Theory, BothDatabases]
    public async Task Somebody_who_left_comes_back_with_the_password_they_had(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, new MailSink().Settings);
        await using var _ = host;
        var left = world.One.People[Role.KitHand];
        await using var db = host.OpenDb();
        await db.Memberships.Where(m => m.PersonId == left.Id).ExecuteDeleteAsync();
        var link = await LinkAsync(host, world, Role.Coordinator, left.Email!);

        var guessed = await host.Anonymous().AcceptAsync(link, password: "somebody else's guess");
        var guesses = (await db.Users.AsNoTracking().SingleAsync(p => p.Id == left.Id)).AccessFailedCount;
        var accepted = await host.Anonymous().AcceptAsync(link, password: TestWorld.Password);

        Assert.Contains("not the password of your account", await guessed.WordsAsync(), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Found, accepted.StatusCode);
        Assert.Equal(Role.Coordinator, (await db.Memberships.SingleAsync(m => m.PersonId == left.Id)).Role);
        Assert.Equal(1, guesses);
    }

    [Theory, BothDatabases]
    public async Task Whoever_is_in_the_programme_already_is_not_let_in_twice(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, new MailSink().Settings);
        await using var _ = host;
        var teacher = world.Two.People[Role.Teacher];
        var link = await LinkAsync(host, world, Role.Coordinator, teacher.Email!);
        await host.SeedAsync(db => db.Add(new Membership { Id = Guid.NewGuid(), PersonId = teacher.Id, ProgrammeId = world.One.Programme.Id, Role = Role.KitHand }));

        var answer = await host.Anonymous().AcceptAsync(link, password: TestWorld.Password);

        Assert.Contains("in this programme already", await answer.WordsAsync(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("ines@example.test", Role.Teacher, null, "Choose the teacher's school.")]
    [InlineData("ines@example.test", Role.Coordinator, 0, "Only a teacher belongs to one school.")]
    [InlineData("ines@example.test", Role.Teacher, -1, "This school is not in your programme.")]
    [InlineData("kithand-a@example.test", Role.KitHand, null, "KitHand A is in the programme already.")]
    [InlineData("no address", Role.KitHand, null, "This does not look like an email address.")]
    public async Task An_invitation_that_does_not_fit_is_refused_and_what_was_typed_stays(string email, Role role, int? school, string says)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite, new MailSink().Settings);
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);

        var answer = await lead.InviteAsync(email, role, school switch { null => null, -1 => world.Two.Schools[0].Id, var i => world.One.Schools[i.Value].Id });

        Assert.Contains(says, await answer.WordsAsync(), StringComparison.Ordinal);
        Assert.Contains($"value=\"{email}\"", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        await using var db = host.OpenDb();
        Assert.Empty(await db.Invitations.ToListAsync());
    }

    [Fact]
    public async Task An_unknown_link_says_what_to_do()
    {
        await using var host = await PortalHost.CreateAsync(DatabaseKind.Sqlite);

        var words = await host.Anonymous().WordsAsync("/invitation/made-up");

        Assert.Contains("We do not know this invitation.", words, StringComparison.Ordinal);
    }

    private static async Task<string> LinkAsync(PortalHost host, TestWorld world, Role role, string email = Email)
    {
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);
        return (await (await lead.InviteAsync(email, role)).LinkToHandOnAsync())!;
    }

    private static async Task AssertNobodyCameAsync(PortalHost host)
    {
        await using var db = host.OpenDb();
        Assert.False(await db.Users.AnyAsync(p => p.Email == Email));
    }
}

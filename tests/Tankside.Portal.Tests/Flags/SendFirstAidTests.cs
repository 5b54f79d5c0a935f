using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.Flags;
using Tankside.Portal.Tests.Flags.FirstAidTexts;
using Tankside.Storage;
using Tankside.Storage.People;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Flags;

/// <summary>First aid on its way to the teachers: once, each in their language, with the line of history, or not at all.</summary>
public class SendFirstAidTests
{
    private static readonly Guid FlagId = Guid.NewGuid();

    private static async Task<(PortalHost Host, TestProgramme One)> CreateAsync(DatabaseKind kind, Action<Flag>? change = null)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        var flag = new Flag
        {
            Id = FlagId,
            ProgrammeId = world.One.Programme.Id,
            TankId = world.One.Tanks[0].Id,
            Kind = FlagKind.Warm,
            State = FlagState.Open,
            Urgency = Urgency.ActNow,
            OpenedAt = host.Now,
            UpdatedAt = host.Now,
            StandsOn = host.Now,
            Evidence = new TemperatureEvidence(LifeStage.Alevin, 16.1, host.Now, 15, host.Now, 10.5),
            Hazard = Hazard.Around(host.Now, 24, 0.3),
            RuleVersion = "test",
            Turn = 3,
        };
        change?.Invoke(flag);
        await host.SeedAsync(db => db.Add(flag));
        return (host, world.One);
    }

    /// <summary>A second teacher of a school, who reads Spanish and has a telephone.</summary>
    private static Task AddTeacherAsync(PortalHost host, TestProgramme one, int school, string email = "luz@example.test") => host.SeedAsync(db =>
    {
        var person = new Person
        {
            Id = Guid.NewGuid(),
            Name = "Luz Marín",
            UserName = email,
            NormalizedUserName = email.ToUpperInvariant(),
            Email = email,
            NormalizedEmail = email.ToUpperInvariant(),
            PhoneNumber = "+1 (555) 010-0142",
            Language = "es",
            SecurityStamp = "x",
        };
        db.Add(person);
        db.Add(new Membership { Id = Guid.NewGuid(), PersonId = person.Id, ProgrammeId = one.Programme.Id, Role = Role.Teacher, SchoolId = one.Schools[school].Id });
    });

    private static CurrentUser As(TestProgramme one, Role role) => new(one.People[role].Id, one.Programme.Id, role, role == Role.Teacher ? one.Schools[0].Id : null);

    private static Task<ActOutcome> SendAsync(PortalHost host, CurrentUser by, int turn = 3) =>
        host.CallAsync<SendFirstAid, ActOutcome>(send => send.SendAsync(FlagId, turn, by, CancellationToken.None));

    [Theory, BothDatabases]
    public async Task Every_teacher_of_the_school_gets_one_letter_in_their_language(DatabaseKind kind)
    {
        var (host, one) = await CreateAsync(kind);
        await using var _ = host;
        await AddTeacherAsync(host, one, 0);
        await AddTeacherAsync(host, one, 1, "other@example.test");

        var done = Assert.IsType<ActOutcome.Done>(await SendAsync(host, As(one, Role.Coordinator)));

        Assert.Equal(4, done.Flag.Turn);
        await using var db = host.OpenDb();
        var letters = await db.OutgoingLetters.OrderBy(l => l.To).ToListAsync();
        Assert.Equal(["luz@example.test", one.EmailOf(Role.Teacher)], letters.Select(l => l.To));
        Assert.All(letters, l => Assert.StartsWith("first-aid ", l.Key, StringComparison.Ordinal));
        Assert.All(letters, l => Assert.Equal($"first-aid {FlagId} 3 {l.PersonId}", l.Key));
        Assert.All(letters, l => Assert.Equal((LetterState.Waiting, host.Now, host.Now), (l.State, l.WrittenAt, l.NotBefore)));
        Assert.All(letters, l => Assert.Contains("/tanks/A001/reading", l.Text, StringComparison.Ordinal));
        Assert.Equal("Primeros auxilios, tanque A001: agua caliente", letters[0].Subject);
        Assert.Contains("Lo que vemos: 61 °F (16,1 °C) a las 08:15, por encima del límite de 59 °F (15 °C) para alevines; unos 148 peces; la escuela cierra a las 15:15.", letters[0].Text, StringComparison.Ordinal);
        Assert.Contains("2. Tapa puesta", letters[0].Text, StringComparison.Ordinal);
        Assert.Equal("First aid, tank A001: warm water", letters[1].Subject);
        Assert.Contains("2. Lid on", letters[1].Text, StringComparison.Ordinal);
        Assert.Contains("Answer to Coordinator A, coordinator-a@example.test.", letters[1].Text, StringComparison.Ordinal);
        var line = await db.FlagEvents.SingleAsync(e => e.FlagId == FlagId);
        Assert.Equal((FlagDeed.FirstAidSent, one.People[Role.Coordinator].Id), (line.Deed, line.By));
        Assert.Equal("Hello, this is about tank A001, Room 1, Birch Lane School: warm water.", line.Note);
    }

    [Theory, BothDatabases]
    public async Task Whoever_acted_in_between_is_shown_and_nothing_is_written(DatabaseKind kind)
    {
        var (host, one) = await CreateAsync(kind);
        await using var _ = host;
        var lead = As(one, Role.ProgrammeLead);
        await host.CallAsync<ActOnFlag, ActOutcome>(act => act.ActAsync(new FlagAct(FlagId, 3, FlagDeed.Noted, "Ringing them."), lead, CancellationToken.None));

        var clash = Assert.IsType<ActOutcome.Clash>(await SendAsync(host, As(one, Role.Coordinator)));

        Assert.Equal(("Ringing them.", "ProgrammeLead A", 4), (clash.Theirs?.Note, clash.TheirName, clash.AsItIs.Turn));
        await using var db = host.OpenDb();
        Assert.Equal(0, await db.OutgoingLetters.CountAsync());
        Assert.Equal(1, await db.FlagEvents.CountAsync(e => e.FlagId == FlagId));
    }

    [Theory, BothDatabases]
    public async Task Pressed_many_times_at_once_it_goes_out_once(DatabaseKind kind)
    {
        var (host, one) = await CreateAsync(kind);
        await using var _ = host;

        var outcomes = await Task.WhenAll(Enumerable.Range(0, 6).Select(_ => SendAsync(host, As(one, Role.Coordinator))));

        Assert.Single(outcomes.OfType<ActOutcome.Done>());
        Assert.Equal(5, outcomes.OfType<ActOutcome.Clash>().Count());
        await using var db = host.OpenDb();
        Assert.Equal(1, await db.OutgoingLetters.CountAsync());
        Assert.Equal(4, (await db.Flags.SingleAsync(f => f.Id == FlagId)).Turn);
    }

    [Theory, BothDatabases]
    public async Task Sent_again_on_a_later_turn_it_is_another_letter(DatabaseKind kind)
    {
        var (host, one) = await CreateAsync(kind);
        await using var _ = host;

        Assert.IsType<ActOutcome.Done>(await SendAsync(host, As(one, Role.Coordinator)));
        Assert.IsType<ActOutcome.Done>(await SendAsync(host, As(one, Role.ProgrammeLead), turn: 4));

        await using var db = host.OpenDb();
        Assert.Equal(2, await db.OutgoingLetters.CountAsync());
    }

    [Theory, BothDatabases]
    public async Task It_is_refused_with_a_reason(DatabaseKind kind)
    {
        var (host, one) = await CreateAsync(kind, flag => flag.State = FlagState.Settled);
        await using var _ = host;
        await using (var db = host.OpenDb())
        {
            var rows = await db.Flags.SingleAsync(f => f.Id == FlagId);
            Assert.Equal("This flag is settled already.", Assert.IsType<ActOutcome.Refused>(await SendAsync(host, As(one, Role.Coordinator))).Why);
            rows.State = FlagState.Open;
            await db.SaveChangesAsync();
            db.Memberships.RemoveRange(await db.Memberships.Where(m => m.Role == Role.Teacher).ToListAsync());
            await db.SaveChangesAsync();
        }

        Assert.StartsWith("No teacher of this school", Assert.IsType<ActOutcome.Refused>(await SendAsync(host, As(one, Role.Coordinator))).Why, StringComparison.Ordinal);
        foreach (var role in new[] { Role.Teacher, Role.KitHand, Role.AgencyContact })
        {
            Assert.StartsWith("This flag is not yours", Assert.IsType<ActOutcome.Refused>(await SendAsync(host, As(one, role))).Why, StringComparison.Ordinal);
        }

        var stranger = As(one, Role.Coordinator) with { ProgrammeId = Guid.NewGuid() };
        Assert.StartsWith("This flag is not yours", Assert.IsType<ActOutcome.Refused>(await SendAsync(host, stranger)).Why, StringComparison.Ordinal);
        await using var after = host.OpenDb();
        Assert.Equal(0, await after.OutgoingLetters.CountAsync() + await after.FlagEvents.CountAsync());
    }

    [Theory, BothDatabases]
    public async Task The_preview_shows_the_text_the_teachers_and_their_telephones(DatabaseKind kind)
    {
        var (host, one) = await CreateAsync(kind);
        await using var _ = host;
        await AddTeacherAsync(host, one, 0);
        var coordinator = As(one, Role.Coordinator);

        var preview = await PreviewAsync(coordinator, FlagId, "es");

        Assert.NotNull(preview);
        Assert.Contains("agua caliente", preview.Text.FirstLine, StringComparison.Ordinal);
        Assert.StartsWith(preview.Text.FirstLine, preview.Text.Full, StringComparison.Ordinal);
        Assert.Equal(["Luz Marín", "Teacher A"], preview.Teachers.Select(t => t.Name));
        Assert.Equal("tel:+15550100142", preview.Teachers[0].CallLink);
        Assert.Equal("sms:+15550100142?body=61%20%C2%B0F%0Aok", preview.Teachers[0].MessageLink("61 °F\nok"));
        Assert.Null(preview.Teachers[1].CallLink);
        Assert.Null(await PreviewAsync(As(one, Role.KitHand), FlagId, "en"));
        Assert.Null(await PreviewAsync(coordinator, Guid.NewGuid(), "en"));

        Task<FirstAidPreview?> PreviewAsync(CurrentUser by, Guid flag, string language) =>
            host.CallAsync<SendFirstAid, FirstAidPreview?>(send => send.PreviewAsync(flag, language, by, CancellationToken.None));
    }

    [Theory, BothDatabases]
    public async Task A_shared_cause_is_shown_for_the_coordinator_and_sent_to_nobody(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var one = world.One;
        await host.SeedAsync(db => db.Add(new Flag
        {
            Id = FlagId,
            ProgrammeId = one.Programme.Id,
            Kind = FlagKind.SharedCause,
            CauseBy = SharedBy.Lot,
            CauseCode = "L1",
            Evidence = AidCases.Shared(LifeStage.Egg, SharedBy.Lot),
            Hazard = Hazard.Around(host.Now, 24, 0.3),
            Urgency = Urgency.Today,
            OpenedAt = host.Now,
            UpdatedAt = host.Now,
            StandsOn = host.Now,
            RuleVersion = "test",
        }));

        var preview = await host.CallAsync<SendFirstAid, FirstAidPreview?>(s => s.PreviewAsync(FlagId, "en", As(one, Role.Coordinator), CancellationToken.None));

        Assert.NotNull(preview);
        Assert.StartsWith("Call every other room of this lot", preview.Card.Say[0], StringComparison.Ordinal);
        Assert.Contains("2 of 3 tanks of lot L1 lose too many: A001 30 dead", preview.Text.Full, StringComparison.Ordinal);
        Assert.Empty(preview.Teachers);
        Assert.StartsWith("A shared cause has no single teacher", Assert.IsType<ActOutcome.Refused>(await SendAsync(host, As(one, Role.Coordinator), turn: 0)).Why, StringComparison.Ordinal);
    }
}

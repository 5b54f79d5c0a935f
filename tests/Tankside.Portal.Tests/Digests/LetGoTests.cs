using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Digests.Keeping;
using Tankside.Portal.Tests.Releases;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Digests;

/// <summary>What is kept long enough goes, as far as the programme says, and nothing of the account goes with it.</summary>
public class LetGoTests
{
    [Theory, BothDatabases]
    public async Task What_is_older_than_its_days_is_deleted_and_told_and_all_else_stays(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var (one, two) = (world.One, world.Two);
        await host.SeedAsync(db =>
        {
            foreach (var programme in new[] { one, two })
            {
                db.AddRange(Letter(programme, host, 401, LetterState.Sent), Letter(programme, host, 399, LetterState.Sent), Letter(programme, host, 900, LetterState.Waiting));
                db.AddRange(Photo(programme, host, 801), Photo(programme, host, 799));
                db.AddRange(Import(programme, host, 31, ImportState.Previewed), Import(programme, host, 31, ImportState.Done), Import(programme, host, 29, ImportState.Previewed));
                db.AddRange(Places(programme, host, 31, PlaceImportState.Previewed), Places(programme, host, 31, PlaceImportState.Done));
                db.Add(new Draft { PersonId = programme.People[Role.Coordinator].Id, Key = "old", Text = "half a word", At = host.Now.AddDays(-31) });
                db.Add(new Draft { PersonId = programme.People[Role.Coordinator].Id, Key = "new", Text = "half a word", At = host.Now.AddDays(-29) });
                db.AddRange(Invited(programme, host, 91, accepted: true), Invited(programme, host, 91, accepted: false), Invited(programme, host, 20, accepted: true));
                db.AddRange(Line(programme, host, 2001), Line(programme, host, 1999));
            }

            // The second programme keeps its mails longer.
            db.Add(new ProgrammeSetting { ProgrammeId = two.Programme.Id, Key = Keeping.Letters.Key, Value = 1000 });
        });
        await using var before = host.OpenDb();
        var (readings, ledger) = (await before.Readings.CountAsync(), await before.Ledger.CountAsync());

        var gone = await host.CallAsync<LetGo, int>(letGo => letGo.RunAsync(CancellationToken.None));

        // Mail, photo, two sheets, draft, invitation that was accepted; one that ran out only 77 days ago stays. The second one keeps the mail.
        Assert.Equal(7 + 6, gone);
        await using var db = host.OpenDb();
        Assert.Equal(2, await db.OutgoingLetters.CountAsync(l => l.ProgrammeId == one.Programme.Id));
        Assert.Equal(3, await db.OutgoingLetters.CountAsync(l => l.ProgrammeId == two.Programme.Id));
        Assert.Equal(2, await db.TankPhotos.CountAsync());
        Assert.Equal([ImportState.Done, ImportState.Previewed], await db.ReadingImports.Where(i => i.ProgrammeId == one.Programme.Id).OrderBy(i => i.SentAt).Select(i => i.State).ToListAsync());
        Assert.Equal(PlaceImportState.Done, (await db.PlaceImports.SingleAsync(i => i.ProgrammeId == one.Programme.Id)).State);
        Assert.Equal("new", (await db.Drafts.SingleAsync(d => d.PersonId == one.People[Role.Coordinator].Id)).Key);
        Assert.Equal(2, await db.Invitations.CountAsync(i => i.ProgrammeId == one.Programme.Id));
        Assert.Equal((readings, ledger), (await db.Readings.CountAsync(), await db.Ledger.CountAsync()));

        var page = await (await host.ClientAs(Role.ProgrammeLead, one)).ReadAsync("/changes");
        Assert.Contains("older than 400 days", page, StringComparison.Ordinal);
        Assert.Equal(0, await host.CallAsync<LetGo, int>(letGo => letGo.RunAsync(CancellationToken.None)));
    }

    private static OutgoingLetter Letter(TestProgramme programme, PortalHost host, int days, LetterState state) => new()
    {
        Id = Guid.NewGuid(),
        Key = $"{days} {state} {programme.Letter}",
        ProgrammeId = programme.Programme.Id,
        To = "somebody@example.test",
        Subject = "The round",
        Text = "3 tanks",
        WrittenAt = host.Now.AddDays(-days),
        NotBefore = host.Now.AddDays(-days),
        State = state,
    };

    private static TankPhoto Photo(TestProgramme programme, PortalHost host, int days) => new()
    {
        Id = Guid.NewGuid(),
        TankId = programme.Tanks[0].Id,
        ReceivedAt = host.Now.AddDays(-days),
        SentBy = programme.People[Role.Teacher].Id,
        Content = [0xFF, 0xD8],
    };

    private static ReadingImport Import(TestProgramme programme, PortalHost host, int days, ImportState state) => new()
    {
        Id = Guid.NewGuid(),
        ProgrammeId = programme.Programme.Id,
        FileName = "sheet.csv",
        SentBy = programme.People[Role.Coordinator].Id,
        SentAt = host.Now.AddDays(-days),
        Columns = "{}",
        State = state,
    };

    private static PlaceImport Places(TestProgramme programme, PortalHost host, int days, PlaceImportState state) => new()
    {
        Id = Guid.NewGuid(),
        ProgrammeId = programme.Programme.Id,
        FileName = "places.csv",
        Holds = PlaceSheet.Closures,
        SentBy = programme.People[Role.ProgrammeLead].Id,
        SentAt = host.Now.AddDays(-days),
        Columns = "{}",
        State = state,
    };

    private static Invitation Invited(TestProgramme programme, PortalHost host, int days, bool accepted) => new()
    {
        Id = Guid.NewGuid(),
        ProgrammeId = programme.Programme.Id,
        Email = $"{days}-{accepted}-{programme.Letter}@example.test",
        Role = Role.Coordinator,
        SecretHash = Guid.NewGuid().ToString(),
        InvitedAt = host.Now.AddDays(-days),
        InvitedBy = programme.People[Role.ProgrammeLead].Id,
        ExpiresAt = host.Now.AddDays(-days) + Invitation.Lifetime,
        AcceptedAt = accepted ? host.Now.AddDays(-days) : null,
    };

    private static Change Line(TestProgramme programme, PortalHost host, int days) => new()
    {
        ProgrammeId = programme.Programme.Id,
        At = host.Now.AddDays(-days),
        What = "Season",
        Which = $"{days}",
        Name = "2026",
        Kind = ChangeKind.Changed,
        Fields = "[]",
    };
}

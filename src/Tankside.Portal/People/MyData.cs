using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell.Sheets;
using Tankside.Storage;

namespace Tankside.Portal.People;

public sealed record MyPlace(string Programme, string Role, bool AtASchool, string? BackgroundCheck, DateOnly? CheckedUntil);

public sealed record MyPasskey(string Name, DateTime MadeAt, DateTime? LastUsedAt);

public sealed record MySession(string? Browser, string? System, DateTime BeganAt, DateTime LastUsedAt);

public sealed record MyInvitation(string Programme, string Role, DateTime InvitedAt, DateTime? AcceptedAt);

public sealed record MyLetter(string Subject, string To, string Text, DateTime WrittenAt, DateTime? SentAt);

public sealed record MyDraft(string For, string Text, DateTime At);

/// <summary>How often a person stands in a kind of row, by what the row says of them.</summary>
/// <param name="What">"ledger entry, entered by".</param>
public sealed record MyTrace(string What, long Times);

/// <summary>Everything that the program holds about one adult. What they did is counted, not repeated: it is the programme's own record.</summary>
public sealed record MyDataFile(
    string Name, string? Email, string? Phone, string Language, string? QuietFrom, string? QuietTo, bool WantsDigest, bool WantsUrgent,
    bool WantsAnnouncements, bool WantsReminders, DateTime? AddressRefusedSince,
    bool SecondStep, IReadOnlyList<MyPasskey> Passkeys, IReadOnlyList<MySession> Sessions, IReadOnlyList<MyPlace> Places, IReadOnlyList<MyInvitation> Invitations, IReadOnlyList<MyLetter> Letters, IReadOnlyList<MyDraft> Drafts,
    IReadOnlyList<string> BackupOf, IReadOnlyList<MyTrace> Did);

public sealed class MyData(IDbContextFactory<HatcheryDb> databases, Passkeys passkeys, OpenSessions sessions, IPlaceNames placeNames)
{
    public async Task<MyDataFile> LoadAsync(CurrentUser user, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var me = await db.Users.AsNoTracking().SingleAsync(p => p.Id == user.PersonId, cancel);
        var programmes = await db.Programmes.AsNoTracking().ToDictionaryAsync(p => p.Id, p => p.Name, cancel);
        return new MyDataFile(
            me.Name, me.Email, me.PhoneNumber, me.Language, EditMe.Text(me.QuietFrom), EditMe.Text(me.QuietTo), me.WantsDigest, me.WantsUrgent,
            !me.WithoutAnnouncements, !me.WithoutReminders, await db.RefusedAddresses.Where(a => a.Address == me.NormalizedEmail).Select(a => (DateTime?)a.Since).SingleOrDefaultAsync(cancel),
            me.TwoFactorEnabled,
            [.. (await passkeys.OfAsync(me.Id, cancel)).Select(p => new MyPasskey(p.Name, p.MadeAt, p.LastUsedAt))],
            [.. (await sessions.OfAsync(me, cancel)).Select(s => new MySession(s.Browser, s.System, s.BeganAt, s.LastUsedAt))],
            [.. (await db.Memberships.AsNoTracking().Where(m => m.PersonId == me.Id).ToListAsync(cancel))
                .Select(m => new MyPlace(programmes[m.ProgrammeId], m.Role.Word(), m.SchoolId is not null, m.CheckKind, m.CheckedUntil))],
            [.. (await InvitationsAsync(db, me.Email!, cancel)).OrderBy(i => i.InvitedAt)
                .Select(i => new MyInvitation(programmes[i.ProgrammeId], i.Role.Word(), i.InvitedAt, i.AcceptedAt))],
            await db.OutgoingLetters.AsNoTracking().Where(l => l.PersonId == me.Id || l.To == me.Email).OrderBy(l => l.WrittenAt)
                .Select(l => new MyLetter(l.Subject, l.To, l.Text, l.WrittenAt, l.SentAt)).ToListAsync(cancel),
            await db.Drafts.AsNoTracking().Where(d => d.PersonId == me.Id).OrderBy(d => d.At).Select(d => new MyDraft(d.Key, d.Text, d.At)).ToListAsync(cancel),
            await placeNames.RoomsBackedUpByAsync(me.Id, cancel),
            await DidAsync(db, me.Id, cancel));
    }

    /// <summary>However the address was spelt when they were written; a programme has a few hundred.</summary>
    internal static async Task<IReadOnlyList<Invitation>> InvitationsAsync(HatcheryDb db, string mail, CancellationToken cancel) =>
        [.. (await db.Invitations.ToListAsync(cancel)).Where(i => string.Equals(i.Email, mail, StringComparison.OrdinalIgnoreCase))];

    /// <summary>The model itself is asked which columns name a person, because most of them belong to words that people do not know. One statement.</summary>
    private static async Task<IReadOnlyList<MyTrace>> DidAsync(HatcheryDb db, Guid personId, CancellationToken cancel)
    {
        var columns = db.Model.GetEntityTypes().Where(t => !t.IsOwned() && t.GetTableName() is not null)
            .SelectMany(t => t.GetProperties().Where(NamesAPerson).Select(p => (Type: t, Property: p))).ToList();
        // Names of tables and columns come from the model, never from outside.
        var parts = columns.Select((c, i) =>
            $"SELECT {i.ToString(CultureInfo.InvariantCulture)} AS \"Column\", count(*) AS \"Times\" FROM \"{c.Type.GetTableName()}\" WHERE \"{c.Property.GetColumnName()}\" = {{0}}");
        var counted = await db.Database.SqlQueryRaw<Counted>(string.Join(" UNION ALL ", parts), personId).ToListAsync(cancel);
        return
        [
            .. counted.Where(c => c.Times > 0)
                .Select(c => new MyTrace(Said(columns[c.Column].Type.ClrType.Name, columns[c.Column].Property.Name), c.Times))
                .OrderBy(t => t.What, StringComparer.Ordinal),
        ];
    }

    private static string Said(string row, string column) =>
        $"{Headings.Plain(row)}, {Headings.Plain(column.EndsWith("Id", StringComparison.Ordinal) ? column[..^2] : column)}";

    private static bool NamesAPerson(IProperty property) =>
        (property.ClrType == typeof(Guid) || property.ClrType == typeof(Guid?))
        && (property.Name.EndsWith("By", StringComparison.Ordinal) || property.Name is "PersonId" or "WithPersonId" or "HolderId" or "ResponsibleId");

    private sealed record Counted(int Column, long Times);
}

using System.Collections.Frozen;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Digests;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Eggs.Runs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Kit;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings.SetPoints;
using Tankside.Hatchery.Releases;
using Tankside.Hatchery.Seasons;
using Tankside.Storage.People;

namespace Tankside.Storage;

/// <summary>
/// The things that people set: each change of one is written down. What has a history of its own (readings, ledger lines, flags, acts) is not
/// among them; a test holds a reason for every table that is left out.
/// </summary>
public static class Audited
{
    private static readonly FrozenDictionary<Type, AuditedKind> Kinds = new[]
    {
        Of<Programme>(p => p.Id, p => p.Name, Own<Programme>(p => p.Id)),
        new AuditedKind
        {
            Type = typeof(ProgrammeSetting),
            Which = s => ((ProgrammeSetting)s).Key,
            Name = s => ((ProgrammeSetting)s).Key,
            Programmes = InOne(Own<ProgrammeSetting>(s => s.ProgrammeId)),
            Left = Names("Key"),
            WithoutRow = (s, field) => field == nameof(ProgrammeSetting.Value) ? ProgrammeNumbers.Find(((ProgrammeSetting)s).Key)?.Default : null,
        },
        new AuditedKind
        {
            Type = typeof(OwnText),
            Which = t => ((OwnText)t).Key,
            Name = t => ((OwnText)t).Key,
            Programmes = InOne(Own<OwnText>(t => t.ProgrammeId)),
            Left = Names("Key"),
        },
        new AuditedKind
        {
            Type = typeof(Person),
            Which = p => ((Person)p).Id.ToString(),
            Name = _ => "",
            About = p => ((Person)p).Id,
            Programmes = async (db, p) => await db.Memberships.Where(m => m.PersonId == ((Person)p).Id).Select(m => m.ProgrammeId).ToListAsync(),
            Withheld = Names(nameof(Person.Name), nameof(Person.Email), nameof(Person.PhoneNumber)),
            Told = Names(nameof(Person.TwoFactorEnabled)),
            OnlyWithheld = true,
        },
        Of<Membership>(m => m.Id, m => m.Role.ToString(), Own<Membership>(m => m.ProgrammeId), left: ["PersonId"], withheld: ["CheckKind", "CheckedUntil"], about: m => m.PersonId),
        Of<Invitation>(
            i => i.Id, i => i.Role.ToString(), Own<Invitation>(i => i.ProgrammeId), left: ["InvitedBy"], withheld: ["Email", "Name", "SecretHash"]),
        Of<ApiKey>(k => k.Id, k => k.Name ?? k.Role.ToString(), Own<ApiKey>(k => k.ProgrammeId), left: ["LastUsedAt"], withheld: ["SecretHash"]),
        Of<Season>(s => s.Id, s => s.Name, Own<Season>(s => s.ProgrammeId)),
        Of<School>(s => s.Id, s => s.Name, Own<School>(s => s.ProgrammeId)),
        Of<Closure>(c => c.Id, c => c.Reason, Own<Closure>(c => c.ProgrammeId)),
        Of<Classroom>(
            r => r.Id, r => r.Name, (db, r) => OfAsync(db.Schools, r.SchoolId, s => s.ProgrammeId, db.Schools.Where(s => s.Id == r.SchoolId).Select(s => s.ProgrammeId)),
            withheld: ["BackupName", "BackupPhone"]),
        Of<Tank>(t => t.Id, t => t.Code, Own<Tank>(t => t.ProgrammeId)),
        Of<RoomCode>(c => c.Id, _ => "", (db, c) => OfTankAsync(db, c.TankId), withheld: ["Code"]),
        Of<CalendarFeed>(f => f.Id, _ => "", Own<CalendarFeed>(f => f.ProgrammeId), left: ["IssuedBy"], withheld: ["SecretHash"]),
        Of<KitItem>(k => k.Id, k => k.Serial, Own<KitItem>(k => k.ProgrammeId), left: ["Acts", "ReservedBy", "ReservedAt"]),
        Of<KitDepot>(d => d.Id, d => d.Name, Own<KitDepot>(d => d.ProgrammeId), withheld: ["Holder", "Phone"]),
        Of<Consumable>(c => c.Id, c => c.Name, Own<Consumable>(c => c.ProgrammeId), left: ["InStock", "OrderedAt"]),
        Of<EggLot>(l => l.Id, l => l.Code, Own<EggLot>(l => l.ProgrammeId)),
        Of<Allotment>(a => a.Id, a => a.Eggs.ToString(System.Globalization.CultureInfo.InvariantCulture), (db, a) => OfTankAsync(db, a.TankId)),
        Of<OwnStageTable>(t => t.Id, t => $"{t.Species} {t.Stage}", Own<OwnStageTable>(t => t.ProgrammeId), left: ["EnteredAt", "EnteredBy"]),
        Of<DeliveryRun>(
            r => r.Id, r => r.Name, Own<DeliveryRun>(r => r.ProgrammeId), left: ["Plan", "Turn", "PlannedAt", "PlanningSince", "PlanningUntil"]),
        Of<RunPlace>(p => p.Id, p => p.Name, (db, p) => OfRunAsync(db, p.RunId)),
        Of<RunDriver>(
            d => d.Id, d => d.Number.ToString(System.Globalization.CultureInfo.InvariantCulture), (db, d) => OfRunAsync(db, d.RunId),
            left: ["Leaves", "Back"], withheld: ["Name", "Phone", "Code"]),
        Of<RunStop>(s => s.Id, _ => "", (db, s) => OfRunAsync(db, s.RunId), left: ["DriverId", "Place", "Begins", "Ends", "Dropped"]),
        Of<SetPointPlan>(p => p.Id, _ => "", (db, p) => OfTankAsync(db, p.TankId), left: ["MadeAt", "MadeBy", "EndedBy"]),
        Of<ReleaseSite>(s => s.Id, s => s.Name, Own<ReleaseSite>(s => s.ProgrammeId)),
        Of<Permit>(p => p.Id, p => p.Number, Own<Permit>(p => p.ProgrammeId), left: ["NilReportedBy"], withheld: ["Holder"]),
        Of<OwnTemplate>(t => t.Id, t => t.Name, Own<OwnTemplate>(t => t.ProgrammeId), left: ["ChangedAt", "ChangedBy"]),
        Of<ReportColumns>(c => c.ProgrammeId, _ => "", Own<ReportColumns>(c => c.ProgrammeId), left: ["ChangedAt", "ChangedBy"]),
    }.ToFrozenDictionary(k => k.Type);

    public static IReadOnlyList<Type> Types => Kinds.Keys;

    public static AuditedKind? Find(Type type) => Kinds.GetValueOrDefault(type);

    private static AuditedKind Of<T>(
        Func<T, Guid> id, Func<T, string> name, Func<HatcheryDb, T, ValueTask<Guid?>> programme,
        string[]? left = null, string[]? withheld = null, Func<T, Guid?>? about = null)
        where T : class => new()
        {
            Type = typeof(T),
            Which = x => id((T)x).ToString(),
            Name = x => name((T)x),
            Programmes = InOne((db, x) => programme(db, (T)x)),
            About = x => about?.Invoke((T)x),
            Left = Names(left ?? []),
            Withheld = Names(withheld ?? []),
        };

    private static Func<HatcheryDb, object, ValueTask<Guid?>> Own<T>(Func<T, Guid> programme) => (_, x) => ValueTask.FromResult<Guid?>(programme((T)x));

    private static Func<HatcheryDb, object, ValueTask<IReadOnlyList<Guid>>> InOne(Func<HatcheryDb, object, ValueTask<Guid?>> programme) =>
        async (db, x) => await programme(db, x) is { } one ? [one] : [];

    private static ValueTask<Guid?> OfTankAsync(HatcheryDb db, Guid tankId) =>
        OfAsync(db.Tanks, tankId, t => t.ProgrammeId, db.Tanks.Where(t => t.Id == tankId).Select(t => t.ProgrammeId));

    private static ValueTask<Guid?> OfRunAsync(HatcheryDb db, Guid runId) =>
        OfAsync(db.DeliveryRuns, runId, r => r.ProgrammeId, db.DeliveryRuns.Where(r => r.Id == runId).Select(r => r.ProgrammeId));

    /// <summary>
    /// The programme of what a row hangs on: as the context has it, which may be new too, else asked of the database. It is not left tracked, and
    /// not tracked and let go either: that would let the rows that hang on it go with it.
    /// </summary>
    private static async ValueTask<Guid?> OfAsync<T>(DbSet<T> rows, Guid id, Func<T, Guid> programme, IQueryable<Guid> asked)
        where T : class =>
        rows.Local.FindEntry(id)?.Entity is { } held ? programme(held) : await asked.Select(p => (Guid?)p).FirstOrDefaultAsync();

    private static FrozenSet<string> Names(params string[] names) => names.ToFrozenSet(StringComparer.Ordinal);
}

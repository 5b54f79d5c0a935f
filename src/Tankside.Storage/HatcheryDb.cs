using Microsoft.AspNetCore.DataProtection.EntityFrameworkCore;
using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Identity.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Digests;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Eggs.Runs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Kit;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Hatchery.Readings.SetPoints;
using Tankside.Hatchery.Releases;
using Tankside.Hatchery.Releases.Bookings;
using Tankside.Hatchery.Seasons;
using Tankside.Storage.People;
using Tankside.Storage.Readings;

namespace Tankside.Storage;

/// <summary>
/// The one database context, for PostgreSQL and for SQLite. Roles are memberships of a programme, so the identity tables are only those of
/// users.
/// </summary>
public class HatcheryDb(DbContextOptions<HatcheryDb> options)
    : IdentityUserContext<Person, Guid>(options), IDataProtectionKeyContext
{
    public DbSet<IdentityUserPasskey<Guid>> Passkeys => Set<IdentityUserPasskey<Guid>>();

    public DbSet<Programme> Programmes => Set<Programme>();

    public DbSet<ProgrammeSetting> Settings => Set<ProgrammeSetting>();

    public DbSet<OwnText> OwnTexts => Set<OwnText>();

    public DbSet<Membership> Memberships => Set<Membership>();

    public DbSet<Invitation> Invitations => Set<Invitation>();

    public DbSet<SetUpLink> SetUpLinks => Set<SetUpLink>();

    public DbSet<ApiKey> ApiKeys => Set<ApiKey>();

    public DbSet<OutgoingLetter> OutgoingLetters => Set<OutgoingLetter>();

    public DbSet<RefusedAddress> RefusedAddresses => Set<RefusedAddress>();

    public DbSet<Draft> Drafts => Set<Draft>();

    public DbSet<NewsSeen> NewsSeen => Set<NewsSeen>();

    public DbSet<OpenSession> OpenSessions => Set<OpenSession>();

    public DbSet<Change> Changes => Set<Change>();

    public DbSet<Season> Seasons => Set<Season>();

    public DbSet<School> Schools => Set<School>();

    public DbSet<WaysStamp> WaysStamps => Set<WaysStamp>();

    public DbSet<Closure> Closures => Set<Closure>();

    public DbSet<Classroom> Classrooms => Set<Classroom>();

    public DbSet<Tank> Tanks => Set<Tank>();

    public DbSet<SeasonTank> SeasonTanks => Set<SeasonTank>();

    public DbSet<TakenOutPlace> TakenOutPlaces => Set<TakenOutPlace>();

    public DbSet<RoomCode> RoomCodes => Set<RoomCode>();

    public DbSet<CalendarFeed> CalendarFeeds => Set<CalendarFeed>();

    public DbSet<AreaSweep> AreaSweeps => Set<AreaSweep>();

    public DbSet<SweepReply> SweepReplies => Set<SweepReply>();

    public DbSet<PlaceImport> PlaceImports => Set<PlaceImport>();

    public DbSet<PlaceImportSheet> PlaceImportSheets => Set<PlaceImportSheet>();

    public DbSet<PlaceImportLine> PlaceImportLines => Set<PlaceImportLine>();

    public DbSet<KitItem> KitItems => Set<KitItem>();

    public DbSet<KitAct> KitActs => Set<KitAct>();

    public DbSet<KitDepot> KitDepots => Set<KitDepot>();

    public DbSet<KitPhoto> KitPhotos => Set<KitPhoto>();

    public DbSet<Consumable> Consumables => Set<Consumable>();

    public DbSet<ConsumableMove> ConsumableMoves => Set<ConsumableMove>();

    public DbSet<EggLot> EggLots => Set<EggLot>();

    public DbSet<Allotment> Allotments => Set<Allotment>();

    public DbSet<Receipt> Receipts => Set<Receipt>();

    public DbSet<DeliveryRun> DeliveryRuns => Set<DeliveryRun>();

    public DbSet<RunPlace> RunPlaces => Set<RunPlace>();

    public DbSet<RunDriver> RunDrivers => Set<RunDriver>();

    public DbSet<RunStop> RunStops => Set<RunStop>();

    public DbSet<RunTick> RunTicks => Set<RunTick>();

    public DbSet<Reading> Readings => Set<Reading>();

    public DbSet<ReadingImport> ReadingImports => Set<ReadingImport>();

    public DbSet<ImportedSheet> ImportedSheets => Set<ImportedSheet>();

    public DbSet<TankPhoto> TankPhotos => Set<TankPhoto>();

    public DbSet<AllotmentChange> AllotmentChanges => Set<AllotmentChange>();

    public DbSet<ReadyCheck> ReadyChecks => Set<ReadyCheck>();

    public DbSet<ReadyOverride> ReadyOverrides => Set<ReadyOverride>();

    public DbSet<OwnStageTable> OwnStageTables => Set<OwnStageTable>();

    public DbSet<SetPointPlan> SetPointPlans => Set<SetPointPlan>();

    public DbSet<TankDay> TankDays => Set<TankDay>();

    public DbSet<DayFacts> DayFacts => Set<DayFacts>();

    public DbSet<PastDays> PastDays => Set<PastDays>();

    public DbSet<LedgerEntry> Ledger => Set<LedgerEntry>();

    public DbSet<ReleaseSite> ReleaseSites => Set<ReleaseSite>();

    public DbSet<Permit> Permits => Set<Permit>();

    public DbSet<PermitPaper> PermitPapers => Set<PermitPaper>();

    public DbSet<Release> Releases => Set<Release>();

    public DbSet<ReleaseBooking> ReleaseBookings => Set<ReleaseBooking>();

    public DbSet<BookingChoice> BookingChoices => Set<BookingChoice>();

    public DbSet<BookingHold> BookingHolds => Set<BookingHold>();

    public DbSet<BookingAct> BookingActs => Set<BookingAct>();

    public DbSet<TallyCount> TallyCounts => Set<TallyCount>();

    public DbSet<Announcement> Announcements => Set<Announcement>();

    public DbSet<AnnouncementReader> AnnouncementReaders => Set<AnnouncementReader>();

    public DbSet<OwnTemplate> OwnTemplates => Set<OwnTemplate>();

    public DbSet<SeasonSeal> SeasonSeals => Set<SeasonSeal>();

    public DbSet<ReportColumns> ReportColumns => Set<ReportColumns>();

    public DbSet<Flag> Flags => Set<Flag>();

    public DbSet<FlagEvent> FlagEvents => Set<FlagEvent>();

    public DbSet<RehearsalMorning> Rehearsals => Set<RehearsalMorning>();

    public DbSet<UnjudgedFact> UnjudgedFacts => Set<UnjudgedFact>();

    public DbSet<DataProtectionKey> DataProtectionKeys => Set<DataProtectionKey>();

    protected override void OnModelCreating(ModelBuilder builder)
    {
        base.OnModelCreating(builder);
        builder.ApplyConfigurationsFromAssembly(typeof(HatcheryDb).Assembly);
        builder.Entity<DataProtectionKey>().Property(k => k.Xml).HasMaxLength(8000);
        SnakeCase.Apply(builder);
    }

    protected override void ConfigureConventions(ModelConfigurationBuilder configurationBuilder)
    {
        // Instants are UTC on both databases; text enums read well in either.
        configurationBuilder.Properties<DateTime>().HaveConversion<UtcConverter>();
        configurationBuilder.Properties<DateTime?>().HaveConversion<UtcConverter>();
        configurationBuilder.Properties<Enum>().HaveConversion<string>().HaveMaxLength(32);
        configurationBuilder.Properties<string>().HaveMaxLength(400);
    }

    public override int SaveChanges(bool acceptAllChangesOnSuccess)
    {
        Versions.Raise(ChangeTracker);
        return base.SaveChanges(acceptAllChangesOnSuccess);
    }

    public override Task<int> SaveChangesAsync(bool acceptAllChangesOnSuccess, CancellationToken cancellationToken = default)
    {
        Versions.Raise(ChangeTracker);
        return base.SaveChangesAsync(acceptAllChangesOnSuccess, cancellationToken);
    }
}

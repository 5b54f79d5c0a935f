using Microsoft.EntityFrameworkCore;
using Tankside.Storage;

namespace Tankside.Portal.Tests.Guards;

/// <summary>What people set is written down when it changes; whatever is not, stands here with the reason.</summary>
public class AuditedTests
{
    private const string OwnHistory = "keeps its own history", Working = "the program's own working rows", Facts = "a fact that is entered, not something set",
        Secret = "a secret or a sign-in", Sheet = "a sheet on its way in; what it stores is written down", Words = "words on their way, nothing set";

    private static readonly Dictionary<string, string> Left = new(StringComparer.Ordinal)
    {
        ["SetUpLink"] = Secret,
        ["IdentityUserClaim`1"] = Secret,
        ["IdentityUserLogin`1"] = Secret,
        ["IdentityUserToken`1"] = Secret,
        ["DataProtectionKey"] = Secret,
        ["IdentityUserPasskey`1"] = Secret,
        ["OpenSession"] = Secret,
        ["OutgoingLetter"] = Words,
        ["RefusedAddress"] = "what a mail server said",
        ["Announcement"] = OwnHistory,
        ["AnnouncementReader"] = OwnHistory,
        ["Draft"] = Words,
        ["NewsSeen"] = Words,
        ["Change"] = "the record itself",
        ["AreaSweep"] = OwnHistory,
        ["SweepReply"] = Facts,
        ["PlaceImport"] = Sheet,
        ["PlaceImportSheet"] = Sheet,
        ["PlaceImportLine"] = Sheet,
        ["ReadingImport"] = Sheet,
        ["ImportedSheet"] = Sheet,
        ["KitAct"] = OwnHistory,
        ["KitPhoto"] = Facts,
        ["TankPhoto"] = Facts,
        ["ConsumableMove"] = OwnHistory,
        ["Receipt"] = Facts,
        ["AllotmentChange"] = OwnHistory,
        ["ReadyCheck"] = Facts,
        ["ReadyOverride"] = Facts,
        ["RunTick"] = Facts,
        ["Reading"] = OwnHistory,
        ["TankDay"] = Working,
        ["DayFacts"] = Working,
        ["PastDays"] = Working,
        ["WaysStamp"] = Working,
        ["UnjudgedFact"] = Working,
        ["LedgerEntry"] = OwnHistory,
        ["Release"] = OwnHistory,
        ["ReleaseBooking"] = OwnHistory,
        ["BookingChoice"] = OwnHistory,
        ["BookingHold"] = Working,
        ["BookingAct"] = OwnHistory,
        ["TallyCount"] = Facts,
        ["SeasonSeal"] = OwnHistory,
        ["Flag"] = OwnHistory,
        ["FlagEvent"] = OwnHistory,
        ["SeasonTank"] = "part of the season that is made",
        ["TakenOutPlace"] = "what was taken out, to be put back; taking it out is written down",
        ["PermitPaper"] = Facts,
        ["RehearsalMorning"] = "made up for practice",
    };

    [Fact]
    public void Every_table_is_audited_or_left_out_for_a_reason()
    {
        var builder = new DbContextOptionsBuilder<HatcheryDb>();
        Databases.Use(builder, new DatabaseChoice(DatabaseKind.Sqlite, "Data Source=unused.db"));
        using var db = new HatcheryDb(builder.Options);
        var tables = db.Model.GetEntityTypes().Where(e => !e.IsOwned()).Select(e => e.ClrType).ToHashSet();

        Assert.Empty(tables.Where(t => Audited.Find(t) is null && !Left.ContainsKey(t.Name)).Select(t => t.Name));
        Assert.Empty(Audited.Types.Where(t => !tables.Contains(t) || Left.ContainsKey(t.Name)).Select(t => t.Name));
    }
}

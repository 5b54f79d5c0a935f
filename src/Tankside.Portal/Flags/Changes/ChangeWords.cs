using System.Text;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Eggs.Runs;
using Tankside.Hatchery.Kit;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Hatchery.Readings.SetPoints;
using Tankside.Hatchery.Releases;
using Tankside.Hatchery.Seasons;
using Tankside.Portal.Flags.Numbers;
using Tankside.Portal.Flags.Texts;
using Tankside.Storage.People;

namespace Tankside.Portal.Flags.Changes;

/// <summary>What was changed, in the trade's words.</summary>
public static class ChangeWords
{
    /// <summary>Kinds of things by the name under which changes are stored.</summary>
    public static IReadOnlyDictionary<string, string> Kinds { get; } = new Dictionary<string, string>(StringComparer.Ordinal)
    {
        [nameof(Programme)] = "programme",
        [nameof(ProgrammeSetting)] = "setting",
        [nameof(OwnText)] = "text in own words",
        [nameof(Person)] = "account",
        [nameof(Membership)] = "member",
        [nameof(Invitation)] = "invitation",
        [nameof(ApiKey)] = "key",
        [nameof(Season)] = "season",
        [nameof(School)] = "school",
        [nameof(Closure)] = "closure",
        [nameof(Classroom)] = "room",
        [nameof(Tank)] = "tank",
        [nameof(RoomCode)] = "label code",
        [nameof(CalendarFeed)] = "calendar address",
        [nameof(KitItem)] = "kit",
        [nameof(KitDepot)] = "depot",
        [nameof(Consumable)] = "consumable",
        [nameof(EggLot)] = "egg lot",
        [nameof(Allotment)] = "allotment",
        [nameof(OwnStageTable)] = "table of days",
        [nameof(DeliveryRun)] = "delivery run",
        [nameof(RunPlace)] = "place of a run",
        [nameof(RunDriver)] = "driver of a run",
        [nameof(RunStop)] = "stop of a run",
        [nameof(SetPointPlan)] = "set-point plan",
        [nameof(ReleaseSite)] = "release site",
        [nameof(Permit)] = "permit",
        [nameof(ReportColumns)] = "report’s columns",
        ["OwnTemplate"] = "text of announcements",
    };

    /// <summary>What is deleted when it was kept long enough, and has no history of single changes.</summary>
    private static readonly Dictionary<string, string> KeptForAWhile = new(StringComparer.Ordinal)
    {
        [nameof(OutgoingLetter)] = "mails",
        [nameof(TankPhoto)] = "photos of tanks",
        [nameof(ReadingImport)] = "sheets of readings never stored",
        [nameof(PlaceImport)] = "sheets of places never stored",
        [nameof(Draft)] = "unfinished words",
        [nameof(Change)] = "lines of this record",
    };

    /// <summary>Kinds that tell about people; only a lead reads them.</summary>
    public static IReadOnlyList<string> OfPeople { get; } = [nameof(Person), nameof(Membership), nameof(Invitation), nameof(ApiKey)];

    private static readonly Dictionary<string, string> Fields = new(StringComparer.Ordinal)
    {
        ["SetPointC"] = "set point, °C",
        ["RoomC"] = "room, °C",
        ["HatcheryMeanC"] = "hatchery’s mean, °C",
        ["DailyC"] = "daily temperatures, °C",
        ["UnitsC"] = "thermal units, °C",
        ["ElevationM"] = "elevation, m",
        ["DistanceKm"] = "distance, km",
        ["SecretHash"] = "secret",
        ["PhoneNumber"] = "telephone",
        ["TwoFactorEnabled"] = "sign-in in two steps",
        ["CheckKind"] = "background check",
        ["CheckedUntil"] = "background check’s last day",
        ["BackupName"] = "backup adult",
        ["BackupPhone"] = "backup adult’s telephone",
        ["ScreenUnit"] = "unit on screens",
        ["DigestAt"] = "hour of the morning mail",
        ["SecondStepFor"] = "who has to sign in in two steps",
        ["En"] = "in English",
        ["Es"] = "in Spanish",
        ["Code"] = "code",
        ["Value"] = "value",
    };

    public static string Kind(string what) => Kinds.GetValueOrDefault(what) ?? KeptForAWhile.GetValueOrDefault(what, what);

    public static string Word(ChangeKind kind) => kind switch
    {
        ChangeKind.Added => "added",
        ChangeKind.Changed => "changed",
        ChangeKind.Removed => "removed",
    };

    /// <summary>"ClosesAt" as "closes at"; an id as what it is the id of.</summary>
    public static string Field(string name)
    {
        if (Fields.TryGetValue(name, out var word))
        {
            return word;
        }

        var said = new StringBuilder();
        foreach (var sign in name.EndsWith("Id", StringComparison.Ordinal) ? name[..^2] : name)
        {
            said.Append(char.IsUpper(sign) && said.Length > 0 ? " " : "").Append(char.ToLowerInvariant(sign));
        }

        return said.ToString();
    }

    /// <summary>Where the thing is looked at; null where it has no page of its own.</summary>
    public static string? Address(Change change) => change.Kind == ChangeKind.Removed ? null : change.What switch
    {
        nameof(Programme) => "/settings/programme",
        nameof(ProgrammeSetting) => $"/settings/{change.Which}",
        nameof(OwnText) => TextWords.Address(change.Which),
        nameof(Membership) => $"/people/{change.Which}",
        nameof(Invitation) or nameof(ApiKey) or nameof(Person) => "/people",
        nameof(Season) => "/season",
        nameof(Classroom) => "/schools",
        nameof(School) => $"/schools/{change.Which}",
        nameof(Closure) => "/season/closures",
        nameof(Tank) => $"/tanks/{Uri.EscapeDataString(change.Name)}",
        nameof(KitItem) => $"/kit/{Uri.EscapeDataString(change.Name)}",
        nameof(KitDepot) => "/kit/depots",
        nameof(Consumable) => "/kit/stock",
        nameof(EggLot) => $"/lots/{Uri.EscapeDataString(change.Name)}",
        nameof(DeliveryRun) => $"/runs/{change.Which}",
        nameof(ReleaseSite) => $"/releases/sites/{change.Which}",
        nameof(Permit) => $"/releases/permits/{change.Which}",
        nameof(ReportColumns) => "/season/report-columns",
        _ => null,
    };

    /// <summary>What the thing is called where it is shown.</summary>
    public static string Name(Change change) =>
        change.What == nameof(ProgrammeSetting) ? NumberWords.Find(change.Which)?.Word.Name ?? change.Name
        : change.What == nameof(OwnText) ? TextWords.NameOf(change.Which)
        : Enum.TryParse<Role>(change.Name, out var role) && OfPeople.Contains(change.What) ? role.ToString()
        : change.Name;

    /// <summary>Settings whose plain name has the word, so that a search by it finds their changes.</summary>
    public static IReadOnlyList<string> SettingsNamed(string word) =>
        [.. NumberWords.Groups.SelectMany(g => g.Numbers).Where(n => n.Name.Contains(word, StringComparison.OrdinalIgnoreCase)).Select(n => n.Key)];
}

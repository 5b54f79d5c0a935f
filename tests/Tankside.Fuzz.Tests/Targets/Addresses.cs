using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Portal.Accounts;
using Tankside.Portal.Flags;
using Tankside.Portal.Flags.Calls;
using Tankside.Portal.Flags.Steering;
using Tankside.Portal.Shell;

namespace Tankside.Fuzz.Tests.Targets;

/// <summary>What stands in addresses, headers and cookies: where to go on, which page of a list, a plan that is asked for, a language, a room's code.</summary>
public static class Addresses
{
    private static readonly string[] Words = ["/", "//", "\\", "tanks", "evil.example", "%2F", "\t", "2027-02-03", "clear", "hatch-on", "swim-up-by", "all", "1", "-1", "es", "es-MX", ";q=", "0.9", ",", "*", "en", "A1B2-C3D4", "2027-02-03T08:15", "?", "#", "javascript:", "egg"];

    public static Target Target { get; } = new("addresses", dice => Texts.Bytes(Texts.Of(dice, Words, 6, "")), Read) { Words = Words, LongestInput = 8_000 };

    private static string Read(byte[] bytes)
    {
        var text = Texts.Read(bytes);
        var to = LocalAddress.OrHome(text);
        var whole = new Uri(new Uri("https://tankside.example.test/"), to);
        Held.That(whole.Host == "tankside.example.test", $"It leads away to {whole}.");
        var slice = Slice.Of([.. Enumerable.Range(0, 250)], text);
        Held.That(slice.Rows.Count > 0 && (slice.Whole || slice.Number is >= 1 and <= 3), "A page of a list that is none was shown.");
        var today = new DateOnly(2027, 2, 3);
        var plan = PlanQuery.Read(text, text, text, today);
        var dated = PlanQuery.Read(PlanQuery.Hatch, text, null, today);
        Held.That(dated.Wrong is not null || dated.Day >= today, "A plan for a day that is over was taken.");
        var liked = SpokenLanguage.Liked(text);
        Held.That(Say.Languages.ContainsKey(liked), "A language that there is not was liked.");
        var code = RoomCodes.Normalise(text);
        Held.That(RoomCodes.Normalise(code) == code, "A room's code that was made plain is made plain otherwise.");
        var calendar = new SchoolCalendar(ProgrammeClock.Of("America/Denver"), new TimeOnly(8, 0), new TimeOnly(15, 15), []);
        var at = TimeChoices.Parse(text, calendar);
        return $"{to == "/"} {slice.Number} {slice.Whole} {plan.Wrong} {dated.Wrong} {liked} {code.Length == RoomCodes.Length} {at is not null} {StageNames.Named(text)}";
    }
}

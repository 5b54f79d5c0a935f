using Tankside.Portal.Commands.Replaying;

namespace Tankside.Fuzz.Tests.Targets;

/// <summary>A history for the command "replay".</summary>
public static class Cases
{
    private const string Whole =
        """{"timeZone":"America/Denver","schoolDay":{"open":"08:00","close":"15:15"},"closures":["2027-02-15"],"lots":[{"code":"L1","species":"rainbow-trout","fertilised":"2027-01-04"}],"tanks":[{"code":"A001","lot":"L1","litres":208,"jacket":"foam","fish":150}],"readings":[{"tank":"A001","at":"2027-02-03T08:15:00-07:00","waterC":9.4}],"ask":["2027-02-03T09:00:00-07:00"]}""";

    private static readonly string[] Words =
    [
        "\"timeZone\":", "\"schoolDay\":", "\"closures\":", "\"lots\":", "\"tanks\":", "\"readings\":", "\"ask\":", "\"UTC\"", "\"Etc/GMT+12\"", "\"Pacific/Kiritimati\"", "\"0001-01-01\"", "\"9999-12-31\"", "\"24:00\"", "[]", "{}", "null", "1e400",
        "\"\\ud800\"", "\"\\ud800\":", "\"species\":", "\"meanC\":", "\"delivered\":",
    ];

    public static Target Target { get; } = new("replay-case", dice => Mutations.Of(dice, Texts.Bytes(Whole), [Texts.Bytes(Whole)], Words, 20_000), Read) { Words = Words };

    private static string Read(byte[] bytes)
    {
        try
        {
            var read = ReplayCase.Parse(Texts.Read(bytes));
            return $"{read.Tanks.Count > 0} {read.Readings.Count > 0} {read.Ask.Count > 0}";
        }
        catch (UnreadableCaseException e)
        {
            Held.Said([e.Message]);
            return e.Message.Split(':')[^1];
        }
    }
}

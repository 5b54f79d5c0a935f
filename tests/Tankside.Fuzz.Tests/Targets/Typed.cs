using System.Globalization;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Accounts;
using Tankside.Portal.Bench.Asking;
using Tankside.Portal.Readings;
using Tankside.Portal.Shell;

namespace Tankside.Fuzz.Tests.Targets;

/// <summary>Numbers, days, times and names as people type them into pages and settings.</summary>
public static class Typed
{
    private static readonly string[] Words = ["1", "12", "120", "1,200", "1 200", "1.200", "52", "52,5", "52.5", "°", "F", "C", "-", "+", ".", ",", " ", "2027-02-03", "08:15", "8:15 PM", "Wren", "Alder", "Hatch", "3", "e5", "9;9.5;10"];

    public static Target Target { get; } = new("typed", dice => Texts.Bytes(Texts.Of(dice, Words, 6, "")), Read) { Words = Words, LongestInput = 20_000 };

    private static string Read(byte[] bytes)
    {
        var text = Texts.Read(bytes);
        return string.Join('|', new[] { Say.InEnglish, Say.InSpanish }.Select(say => Fields(text, say)).Append(Numbers(text)));
    }

    private static string Fields(string text, Say say)
    {
        var refused = new List<string>();
        var fields = new TypedFields((_, why) => refused.Add(why), say);
        var number = fields.Number("n", text, -100, 10_000, "12.5");
        Held.That(number is null or (>= -100 and <= 10_000), "A number outside its limits was taken.");
        var count = fields.OptionalCount("c", text);
        Held.That(count is not { } c || new TypedFields((_, _) => { }).OptionalCount("c", c.ToString("#,0", CultureInfo.InvariantCulture)) == c, "A count that was written again is read as another.");
        var moment = fields.Moment("d", text, "t", text, ProgrammeClock.Of("America/Denver"));
        Held.That(moment.Kind == DateTimeKind.Utc, "A time is not UTC.");
        var before = refused.Count;
        var name = fields.Name("m", text, "Give a name.");
        Held.That(refused.Count > before || name.Length is > 0 and <= 100, "A name without letters, or too long a one, was taken.");
        _ = (fields.Text("x", text), fields.Choice("g", text, "Choose."), fields.Choice<TemperatureUnit>("u", text, "Choose."));
        Held.Said(refused);
        return $"{number is not null} {count is not null} {refused.Count}";
    }

    private static string Numbers(string text)
    {
        var typed = NumberText.AsTyped(text);
        Held.That(typed is not { } t || NumberText.AsTyped(t.ToString("0.#################", CultureInfo.InvariantCulture)) is { } again && Math.Abs(again - t) <= Math.Abs(t) * 1e-9 || Math.Abs(t) is > 1e14 or < 1e-9, "A number that was written again is read as another.");
        var read = WaterTemperature.TryRead(text, out var water, out var unit);
        if (read)
        {
            ReadingsJson.CheckTyped(new TypedWater(text.Trim(), water, unit ?? TemperatureUnit.F, "water"), new Observation());
        }

        if (DailyText.TryRead(text, out var daily))
        {
            Held.That(daily.Count <= DailyText.MostDays && DailyText.TryRead(DailyText.Write(daily), out var written) && written.Count == daily.Count, "Daily temperatures come back otherwise than they were kept.");
        }

        return $"{typed is not null} {read} {unit} {daily.Count > 0}";
    }
}

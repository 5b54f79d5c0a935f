using Tankside.Portal.Flags.FirstAidTexts;
using Tankside.Portal.Readings;
using Tankside.Science.Units;

namespace Tankside.Portal.Flags.Cards;

/// <summary>What every card says, and its numbers, in both languages.</summary>
internal static class CardWords
{
    private const double LongestInHours = 72, HoursADay = 24;

    /// <summary>"39.2 to 54 °F (4 to 12.2 °C)".</summary>
    public static Bilingual Span(double lowC, double highC)
    {
        var (lowF, highF, low, high) = (Figure((lowC * 1.8) + 32), Figure((highC * 1.8) + 32), Figure(lowC), Figure(highC));
        return new($"{lowF.En} to {highF.En} °F ({low.En} to {high.En} °C)", $"de {lowF.Es} a {highF.Es} °F (de {low.Es} a {high.Es} °C)");
    }

    /// <summary>Told down: nobody is harmed by coming early.</summary>
    public static Bilingual Hours(double hours) => hours switch
    {
        < 1 => new("less than an hour", "menos de una hora"),
        < 2 => new("1 hour", "1 hora"),
        < LongestInHours => new($"{Math.Floor(hours):0} hours", $"{Math.Floor(hours):0} horas"),
        _ => new($"{Math.Floor(hours / HoursADay):0} days", $"{Math.Floor(hours / HoursADay):0} días"),
    };

    /// <summary>"about 9 hours, at the worst 5 hours".</summary>
    public static Bilingual About(Band hours)
    {
        var (mid, low) = (Hours(hours.Mid), Hours(hours.Low));
        return mid == low ? new($"about {mid.En}", $"más o menos {mid.Es}") : new($"about {mid.En}, at the worst {low.En}", $"más o menos {mid.Es}, en el peor caso {low.Es}");
    }

    public static string Printed(CardTank tank, ClassWords words)
    {
        var (day, year) = (words.Day(tank.Today), tank.Today.Year);
        return new Bilingual($"Numbers of {day} {year}. Print it again when the stage changes.", $"Números del {day} de {year}. Imprímala otra vez cuando cambie la etapa.").In(words.Language);
    }

    /// <summary>Whom to call, and a line for the number that is not printed.</summary>
    public static CardPart Call(CardTank tank, ClassWords words)
    {
        const string Line = "____________________";
        var language = words.Language;
        var phone = new Bilingual("telephone", "teléfono").In(language);
        IReadOnlyList<string> lines = tank.Call.Count == 0
            ? [$"{new Bilingual("The coordinator", "Coordinación").In(language)}: {Line}  {phone}: {Line}"]
            : [.. tank.Call.Select(c => $"{c.Name}, {phone}: {c.Phone ?? Line}")];
        return new(new Bilingual("Call the coordinator", "Llame a coordinación").In(language), lines);
    }

    /// <summary>First aid is written as the coordinator says it.</summary>
    public static string Me(ClassWords words) => new Bilingual(
        "Where a step says “me”, it is the coordinator below.", "Donde un paso dice «llámeme» o «mándeme», es a coordinación, abajo.").In(words.Language);

    public static string AgencyWins(ClassWords words) => Warnings.AgencyWins.In(words.Language);

    private static Bilingual Figure(double value) => AidFigures.Number(value, "0.#");
}

using Tankside.Science.Units;

namespace Tankside.Portal.Bench.Asking;

public sealed partial class Question
{
    private static readonly char[] BetweenDays = [' ', '\n', '\r', '\t', ';'];

    /// <summary>A number in the API's unit; not-a-number when it is missing or refused.</summary>
    public double Number(NumberField field)
    {
        if (Maybe(field) is { } value) return value;
        if (!Has(field)) Refuse(field, (OnPage ? "Please fill this in: " : "Missing. ") + Expected(field));
        return double.NaN;
    }

    /// <summary>A number that may be left out; null when it is, or when it is refused.</summary>
    public double? Maybe(NumberField field)
    {
        if (Single(field) is not { } typed) return null;
        var unit = UnitOf(field.Measure);
        if ((OnPage ? NumberText.AsTyped(typed) : NumberText.Invariant(typed)) is not { } number)
        {
            Refuse(field, OnPage && NumberText.MayBeThousands(typed)
                ? $"'{Cut(typed)}' can be read in two ways. Write it without the comma."
                : $"'{Cut(typed)}' is not a number. " + Expected(field));
            return null;
        }

        var value = unit is null ? number : unit.ToApi(number);
        if (!Fits(field, value) || (field.Whole && value != Math.Floor(value)))
        {
            Refuse(field, $"{Cut(typed.Trim())} does not fit. " + Expected(field) + OtherUnit(field, unit, number));
            return null;
        }

        Understand(field, Figures.Plain(value));
        return value;
    }

    public Celsius Temperature(NumberField field) => new(Number(field));

    /// <summary>Daily means in °C; null when left out or refused.</summary>
    public IReadOnlyList<Celsius>? Days(DaysField field)
    {
        if (Single(field) is not { } typed) return null;
        var unit = UnitOf(Measure.Temperature);
        var texts = OnPage
            ? typed.Split(BetweenDays, StringSplitOptions.RemoveEmptyEntries)
            : typed.Split(',');
        if (texts.Length > field.Most)
        {
            Refuse(field, $"{texts.Length} days. Expected at most {field.Most}, one mean temperature a day.");
            return null;
        }

        var days = new List<Celsius>(texts.Length);
        foreach (var text in texts)
        {
            if ((OnPage ? NumberText.AsTyped(text.TrimEnd(',')) : NumberText.Invariant(text)) is not { } number)
                return RefuseDay(field, days.Count, $"'{Cut(text)}' is not a number", unit);
            var value = unit is null ? number : unit.ToApi(number);
            if (value < field.Low || value > field.High) return RefuseDay(field, days.Count, $"{Cut(text)} does not fit", unit);
            days.Add(new Celsius(value));
        }

        Understand(field, string.Join(',', days.Select(day => Figures.Plain(day.Degrees))));
        return days;
    }

    private IReadOnlyList<Celsius>? RefuseDay(DaysField field, int before, string what, PageUnit? unit)
    {
        var range = $"from {In(unit, field.Low)} to {In(unit, field.High)} {unit?.Symbol ?? "°C"}";
        Refuse(field, OnPage
            ? $"Day {before + 1}: {what}. Write each day's mean {range}, with a space or a new line between days."
            : $"Day {before + 1}: {what}. Expected daily means {range}, with decimal points and commas between, "
                + $"for example {field.Name}={field.Sample}.");
        return null;
    }

    private string Expected(NumberField field)
    {
        var unit = UnitOf(field.Measure);
        var symbol = unit?.Symbol ?? field.Unit;
        var kind = field.Whole ? "a whole number" : "a number";
        var end = field.HighOpen ? "to below" : "to";
        var range = $"{kind} from {In(unit, field.Low)} {end} {In(unit, field.High)}{(symbol.Length > 0 ? " " + symbol : "")}";
        return OnPage
            ? $"Write {range}, for example {In(unit, field.Example)}."
            : $"Expected {range}{(field.Whole ? "" : ", with a decimal point")}, for example {field.Name}={field.Sample}.";
    }

    private static string In(PageUnit? unit, double value) =>
        unit is null ? Figures.Plain(value) : Figures.Brief(unit.FromApi(value));

    /// <summary>A value that fits in another unit was most likely meant in it.</summary>
    private static string OtherUnit(NumberField field, PageUnit? unit, double number) =>
        unit is not null
        && PageUnits.Of(field.Measure).Units.FirstOrDefault(u => u != unit && Fits(field, u.ToApi(number))) is { } other
            ? $" Was it in {other.Symbol}?"
            : "";

    private static bool Fits(NumberField field, double value) =>
        value >= field.Low && (field.HighOpen ? value < field.High : value <= field.High);
}

using Tankside.Science.Units;

namespace Tankside.Portal.Bench.Asking;

public sealed partial class Question
{
    private static readonly char[] BetweenDays = [' ', '\n', '\r', '\t', ';'];

    /// <summary>A number in the API's unit; not-a-number when it is missing or refused.</summary>
    public double Number(NumberField field)
    {
        if (Maybe(field) is { } value) return value;
        if (!Has(field)) Refuse(field, (OnPage ? Say["Please fill this in:"] : "Missing.") + " " + Expected(field));
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
                ? Say.Of("'{0}' can be read in two ways. Write it without the comma.", Cut(typed))
                : $"{NoNumber(typed)} {Expected(field)}");
            return null;
        }

        var value = unit is null ? number : unit.ToApi(number);
        if (!Fits(field, value) || (field.Whole && value != Math.Floor(value)))
        {
            Refuse(field, $"{NoFit(typed.Trim())} {Expected(field)}{OtherUnit(field, unit, number)}");
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
            Refuse(field, Say.Of("{0} days. Expected at most {1}, one mean temperature a day.", texts.Length, field.Most));
            return null;
        }

        var days = new List<Celsius>(texts.Length);
        foreach (var text in texts)
        {
            if ((OnPage ? NumberText.AsTyped(text.TrimEnd(',')) : NumberText.Invariant(text)) is not { } number)
                return RefuseDay(field, days.Count, NoNumber(text), unit);
            var value = unit is null ? number : unit.ToApi(number);
            if (value < field.Low || value > field.High) return RefuseDay(field, days.Count, NoFit(text), unit);
            days.Add(new Celsius(value));
        }

        Understand(field, string.Join(',', days.Select(day => Figures.Plain(day.Degrees))));
        return days;
    }

    private IReadOnlyList<Celsius>? RefuseDay(DaysField field, int before, string what, PageUnit? unit)
    {
        var (low, high, symbol) = (In(unit, field.Low), In(unit, field.High), unit?.Symbol ?? "°C");
        Refuse(field, OnPage
            ? Say.Of("Day {0}: {1} Write each day's mean from {2} to {3} {4}, with a space or a new line between days.", before + 1, what, low, high, symbol)
            : $"Day {before + 1}: {what} Expected daily means from {low} to {high} {symbol}, with decimal points and commas between, "
                + $"for example {field.Name}={field.Sample}.");
        return null;
    }

    private string Expected(NumberField field)
    {
        var unit = UnitOf(field.Measure);
        var symbol = Say.Told(unit?.Symbol ?? field.Unit);
        var (low, high) = (In(unit, field.Low), In(unit, field.High) + (symbol.Length > 0 ? " " + symbol : ""));
        var range = field switch
        {
            { Whole: true } => Say.Of("a whole number from {0} to {1}", low, high),
            { HighOpen: true } => Say.Of("a number from {0} to below {1}", low, high),
            _ => Say.Of("a number from {0} to {1}", low, high),
        };
        return OnPage
            ? Say.Of("Write {0}, for example {1}.", range, In(unit, field.Example))
            : $"Expected {range}{(field.Whole ? "" : ", with a decimal point")}, for example {field.Name}={field.Sample}.";
    }

    private string NoNumber(string typed) => Say.Of("'{0}' is not a number.", Cut(typed));

    private string NoFit(string typed) => Say.Of("{0} does not fit.", Cut(typed));

    private static string In(PageUnit? unit, double value) =>
        unit is null ? Figures.Plain(value) : Figures.Brief(unit.FromApi(value));

    /// <summary>A value that fits in another unit was most likely meant in it.</summary>
    private string OtherUnit(NumberField field, PageUnit? unit, double number) =>
        unit is not null
        && PageUnits.Of(field.Measure).Units.FirstOrDefault(u => u != unit && Fits(field, u.ToApi(number))) is { } other
            ? " " + Say.Of("Was it in {0}?", Say.Told(other.Symbol))
            : "";

    private static bool Fits(NumberField field, double value) =>
        value >= field.Low && (field.HighOpen ? value < field.High : value <= field.High);
}

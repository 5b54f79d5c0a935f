using Tankside.Portal.Shell;
using Tankside.Portal.Shell.Charts;

namespace Tankside.Portal.Readings;

/// <summary>The words of the charts for an adult: where classes have a chart too, its Spanish is theirs.</summary>
public static class SpokenCharts
{
    public static TemperatureWords OfTemperature(this Say say) => say.IsSpanish ? ClassWords.Spanish.OfTemperature : new();

    public static LossWords OfLosses(this Say say) => say.IsSpanish ? ClassWords.Spanish.OfLosses : new();

    public static DevelopmentWords OfDevelopment(this Say say) => say.IsSpanish ? ClassWords.Spanish.OfDevelopment : new();

    public static FractionWords OfFraction(this Say say) => new()
    {
        SoFar = say["so far"],
        ToCome = say["to come"],
        Interval = say["four times in five"],
        Today = say["today"],
        Closed = say["school closed"],
        Nothing = say["Nothing is reckoned yet."],
        Table = say["Development as a table"],
        Day = say["Day"],
        Done = say["Done"],
        Between = say["Four times in five"],
    };

    public static AccountWords OfAccount(this Say say) => new()
    {
        In = say["Eggs in"],
        Unaccounted = say["Unaccounted"],
        TooMany = say["more ends than eggs: look for a count that is too high or a receipt that is missing"],
        Table = say["The account as a table"],
        Entry = say["Entry"],
        Count = say["Count"],
    };
}

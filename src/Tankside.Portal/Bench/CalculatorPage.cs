using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Http.Extensions;
using Tankside.Portal.Bench.Asking;
using Tankside.Portal.Shell;
using Tankside.Science.Units;

namespace Tankside.Portal.Bench;

/// <summary>What all calculators' pages share: the question is the page's own address, so an answer can be passed on.</summary>
public abstract class CalculatorPage<TGiven, TAnswer> : ComponentBase
    where TGiven : class
    where TAnswer : class
{
    /// <summary>Keeps a number and its unit on one line.</summary>
    private const string Nbsp = "\u00A0";

    [CascadingParameter]
    public HttpContext Http { get; set; } = null!;

    /// <summary>The reader's language.</summary>
    [Inject]
    protected Say Reader { get; set; } = null!;

    protected abstract Calculator<TGiven, TAnswer> Calculator { get; }

    protected CalculatorCard Card => Calculator.Card;

    protected Question Question { get; private set; } = Question.FromPage(QueryCollection.Empty);

    protected Worked<TGiven, TAnswer> Worked { get; private set; } = new(null, null);

    /// <summary>The same question to the API; null until it is understood.</summary>
    protected string? ApiAddress => Worked.Answer is null ? null : Card.Address + new QueryBuilder(
        Question.Understood.Where(pair => pair.Value is not null).Select(pair => KeyValuePair.Create(pair.Key, pair.Value!)));

    protected override void OnInitialized()
    {
        Question = Question.FromPage(Http.Request.Query, Reader);
        if (Question.Mentions(Card.Fields)) Worked = Calculator.Work(Question);
    }

    /// <summary>A temperature in the reader's unit, and the other in brackets.</summary>
    protected string Both(Celsius t)
    {
        var (f, c) = (Figures.To(t.Fahrenheit, 1) + Nbsp + "°F", Figures.To(t.Degrees, 1) + Nbsp + "°C");
        return Question.UnitOf(Measure.Temperature)?.Code == "C" ? $"{c} ({f})" : $"{f} ({c})";
    }

    /// <summary>A temperature in the reader's unit.</summary>
    protected string One(Celsius t) =>
        Question.UnitOf(Measure.Temperature)?.Code == "C"
            ? Figures.To(t.Degrees, 1) + Nbsp + "°C"
            : Figures.To(t.Fahrenheit, 1) + Nbsp + "°F";

    /// <summary>A volume in the reader's unit.</summary>
    protected string Amount(Litres volume) =>
        Question.UnitOf(Measure.Volume) is { } unit ? $"{Figures.Brief(unit.FromApi(volume.Value))}{Nbsp}{Reader.Told(unit.Symbol)}" : "";
}

namespace Tankside.Portal.Bench.Asking;

/// <summary>One thing that a calculator asks for.</summary>
/// <param name="Name">The query parameter of the API.</param>
/// <param name="Words">What it is, in one phrase for readers of the API.</param>
public abstract record Field(string Name, string Words)
{
    public bool Required { get; init; } = true;

    /// <summary>Its name in the page's address; differs where the page lets people choose a unit.</summary>
    public virtual string PageName => Name;

    /// <summary>A value that works, as the API writes it.</summary>
    public abstract string Sample { get; }
}

/// <summary>A number with its range, both ends included unless said otherwise.</summary>
/// <param name="Low">Smallest value, in the API's unit.</param>
/// <param name="High">Largest value, in the API's unit.</param>
/// <param name="Example">A value that works, in the API's unit.</param>
public sealed record NumberField(string Name, string Words, double Low, double High, double Example) : Field(Name, Words)
{
    public Measure Measure { get; init; } = Measure.Plain;

    /// <summary>Unit as written, for example mg/L; empty for a bare number.</summary>
    public string Unit { get; init; } = "";

    public bool Whole { get; init; }

    /// <summary>The largest value itself is refused.</summary>
    public bool HighOpen { get; init; }

    public override string PageName => Measure switch
    {
        Measure.Temperature => Name[..^1],
        Measure.Volume => "volume",
        Measure.Height => "elevation",
        Measure.Plain => Name,
    };

    public override string Sample => Figures.Plain(Example);

    public static NumberField Temperature(string name, string words, double low, double high, double example) =>
        new(name, words, low, high, example) { Measure = Measure.Temperature, Unit = "°C" };
}

/// <summary>A word out of a short list.</summary>
/// <param name="Codes">The words it may be.</param>
/// <param name="WhenLeftOut">The word taken when none is given; null where one must be given.</param>
public sealed record WordField(string Name, string Words, IReadOnlyList<string> Codes, string? WhenLeftOut = null)
    : Field(Name, Words)
{
    public override string Sample => Codes[0];
}

/// <summary>Daily mean temperatures, one after the other.</summary>
/// <param name="Low">Smallest value of a day, °C.</param>
/// <param name="High">Largest value of a day, °C.</param>
/// <param name="Most">How many days at most.</param>
public sealed record DaysField(string Name, string Words, double Low, double High, int Most) : Field(Name, Words)
{
    public override string Sample => "9,9.5,10";
}

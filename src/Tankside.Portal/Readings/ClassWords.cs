using System.Globalization;
using System.Resources;
using Tankside.Portal.Shell;
using Tankside.Portal.Shell.Charts;
using Tankside.Science.Eggs;

namespace Tankside.Portal.Readings;

/// <summary>Everything that a class reads, in its language: ClassWords.resx in English, ClassWords.es.resx in Spanish.</summary>
public sealed class ClassWords
{
    private static readonly ResourceManager Texts = new(typeof(ClassWords));

    public static readonly ClassWords English = new("en", "dddd d MMMM"), Spanish = new("es", "dddd d 'de' MMMM");

    public static readonly IReadOnlyList<ClassWords> All = [English, Spanish];

    private readonly string dayFormat;
    private readonly Func<string, string>? named;

    private ClassWords(string language, string dayFormat, Func<string, string>? named = null)
    {
        this.named = named;
        Language = language;
        Culture = CultureInfo.GetCultureInfo(language);
        this.dayFormat = dayFormat;
    }

    /// <summary>As browsers and documents name it.</summary>
    public string Language { get; }

    public CultureInfo Culture { get; }

    /// <summary>The language of the other link on the page.</summary>
    public ClassWords Other => Language == English.Language ? Spanish : English;

    public string OtherName => Other == Spanish ? "Español" : "English";

    /// <exception cref="KeyNotFoundException">The text is in neither file.</exception>
    public string this[string key] => Texts.GetString(key, Culture) is not { } text ? throw new KeyNotFoundException($"no text {key}") : named?.Invoke(text) ?? text;

    /// <summary>The same, with the stages called as a programme calls them.</summary>
    /// <param name="names">Puts its names in the place of ours.</param>
    public ClassWords Calling(Func<string, string> names) => new(Language, dayFormat, names);

    public string Of(string key, params object?[] values) => string.Format(CultureInfo.InvariantCulture, this[key], values);

    public string Day(DateOnly day) => day.ToString(dayFormat, Culture);

    public string Fish(Species species) => this[SpeciesCodes.CodeOf(species)];

    public TemperatureWords OfTemperature => new()
    {
        Water = this["chart.water"],
        Safe = this["chart.safe"],
        SetPoint = this["chart.setPoint"],
        Limit = this["chart.limit"],
        Between = this["chart.between"],
        From = this["chart.from"],
        Passed = this["chart.passed"],
        Forecast = this["chart.forecast"],
        Asked = this["chart.asked"],
        Closed = this["chart.closed"],
        Nothing = this["chart.noReading"],
        Table = this["chart.readings"],
        When = this["chart.when"],
        Low = this["chart.low"],
        Mid = this["chart.mid"],
        High = this["chart.high"],
    };

    public LossWords OfLosses => new()
    {
        Removed = this["chart.removed"],
        Expected = this["chart.expected"],
        NotCounted = this["chart.notCounted"],
        Nothing = this["chart.noCount"],
        Table = this["chart.losses"],
        Day = this["chart.day"],
    };

    public DevelopmentWords OfDevelopment => new()
    {
        Today = this["chart.today"],
        Closed = this["chart.closed"],
        Interval = this["chart.interval"],
        Table = this["chart.dates"],
        Stage = this["chart.stage"],
        Earliest = this["chart.earliest"],
        Likely = this["chart.likely"],
        Latest = this["chart.latest"],
    };

    /// <summary>The one asked for by name; null for a language that there is not.</summary>
    public static ClassWords? Named(string? language) => All.FirstOrDefault(w => w.Language == language);

    /// <summary>What a browser likes best of those there are; English when it likes neither.</summary>
    /// <param name="acceptLanguage">The header as sent, e.g. "es-MX,es;q=0.9,en;q=0.8".</param>
    public static ClassWords Liked(string? acceptLanguage) => Named(SpokenLanguage.Liked(acceptLanguage))!;
}

using Tankside.Portal.Shell;

namespace Tankside.Portal.Bench.Asking;

/// <summary>
/// What somebody asked, read field by field; everything that is wrong with it is gathered and told at once. A program's question
/// takes invariant numbers in the API's units; a page's takes a decimal comma too and lets people choose the unit.
/// </summary>
public sealed partial class Question
{
    private readonly IQueryCollection _query;
    private readonly Dictionary<string, string[]> _errors = new(StringComparer.Ordinal);
    private readonly List<KeyValuePair<string, string?>> _understood = [];

    private Question(IQueryCollection query, bool onPage, Say say)
    {
        _query = query;
        Say = say;
        OnPage = onPage;
    }

    public bool OnPage { get; }

    /// <summary>The language of whoever asked; a program's is English.</summary>
    public Say Say { get; }

    /// <summary>By the name that the asker used, what is wrong, what was expected and an example.</summary>
    public IReadOnlyDictionary<string, string[]> Errors => _errors;

    /// <summary>Well asked, but nobody has published the answer: the field it hangs on and the reason.</summary>
    public (string Field, string Why)? NotKnown { get; private set; }

    /// <summary>Whether it can be answered.</summary>
    public bool Stands => _errors.Count == 0 && NotKnown is null;

    /// <summary>The values in the API's names and units.</summary>
    public IReadOnlyList<KeyValuePair<string, string?>> Understood => _understood;

    public static Question FromApi(IQueryCollection query) => new(query, onPage: false, Say.InEnglish);

    public static Question FromPage(IQueryCollection query, Say? say = null) => new(query, onPage: true, say ?? Say.InEnglish);

    /// <summary>The text as it came; null when it is not there or empty.</summary>
    public string? Typed(string name) => string.IsNullOrWhiteSpace(_query[name]) ? null : _query[name].ToString();

    public bool Has(Field field) => Typed(NameOf(field)) is not null;

    /// <summary>Whether any of these fields is in the address, even empty: the form was sent.</summary>
    public bool Mentions(IEnumerable<Field> fields) => fields.Any(field => _query.ContainsKey(NameOf(field)));

    public string NameOf(Field field) => OnPage ? field.PageName : field.Name;

    /// <summary>Notes a fault that is not about one value's form; the first fault of a field stands.</summary>
    public void Refuse(Field field, string message) => _errors.TryAdd(NameOf(field), [message]);

    /// <summary>Notes that no published answer exists.</summary>
    public void IsNotKnown(Field field, string why) => NotKnown ??= (NameOf(field), why);

    /// <summary>The unit in which a number is given here.</summary>
    public PageUnit? UnitOf(Measure measure)
    {
        var (parameter, units) = PageUnits.Of(measure);
        if (!OnPage || units.Count == 0) return null;
        var code = Typed(parameter);
        return units.FirstOrDefault(unit => string.Equals(unit.Code, code, StringComparison.OrdinalIgnoreCase)) ?? units[0];
    }

    /// <summary>A word out of the field's list, or what is taken when it is left out. Empty when refused.</summary>
    public string Word(WordField field)
    {
        var typed = Single(field);
        if (typed is null && field.WhenLeftOut is { } usual) return usual;
        var known = field.Codes.FirstOrDefault(code => string.Equals(code, typed?.Trim(), StringComparison.OrdinalIgnoreCase));
        if (known is null)
        {
            var got = typed is null ? "Missing." : $"'{Cut(typed)}' is not known.";
            Refuse(field, OnPage
                ? Say["Please choose one."]
                : $"{got} Expected one of {string.Join(", ", field.Codes)}; for example {field.Name}={field.Sample}.");
            return "";
        }

        Understand(field, known);
        return known;
    }

    /// <summary>The text of a field that must not stand in the address twice.</summary>
    private string? Single(Field field)
    {
        var name = NameOf(field);
        if (_query[name].Count > 1)
        {
            Refuse(field, Say.Of("Given {0} times. Expected once, for example {1}.", _query[name].Count, $"{field.Name}={field.Sample}"));
        }

        return Typed(name);
    }

    private void Understand(Field field, string text) => _understood.Add(new(field.Name, text));

    /// <summary>An answer does not send back pages of what it was sent.</summary>
    private static string Cut(string text) => text.Length <= 40 ? text : text[..40] + "…";
}

using Tankside.Portal.Releases.Files;

namespace Tankside.Portal.Releases.OwnColumns;

/// <summary>One line of a mapping file that cannot be understood.</summary>
public sealed record MappingTrouble(int Line, string Why);

/// <summary>
/// A programme's own report: each line of the file names a column of the report and, after a colon, where it comes from: a column of the
/// totals, several numbers added and taken off, or a fixed text in quotes. Lines that begin with # are remarks.
/// </summary>
public sealed class ColumnMapping
{
    private readonly List<TotalsColumn> columns = [];

    private readonly List<MappingTrouble> troubles = [];

    private ColumnMapping()
    {
    }

    public IReadOnlyList<TotalsColumn> Columns => columns;

    public IReadOnlyList<MappingTrouble> Troubles => troubles;

    public static ColumnMapping Read(string text)
    {
        var mapping = new ColumnMapping();
        foreach (var (line, index) in text.ReplaceLineEndings("\n").Split('\n').Select((l, i) => (l.Trim(), i + 1)))
        {
            if (line.Length > 0 && line[0] != '#')
            {
                mapping.Add(line, index);
            }
        }

        if (mapping.columns.Count == 0 && mapping.troubles.Count == 0)
        {
            mapping.troubles.Add(new MappingTrouble(1, "There is no column in it. Write one a line, such as “Eggs: eggs_received”."));
        }

        return mapping;
    }

    private void Add(string line, int index)
    {
        // The last colon that is not in quotes parts the name from its source; a name may hold one itself.
        var quote = line.IndexOf('"', StringComparison.Ordinal);
        var colon = (quote < 0 ? line : line[..quote]).LastIndexOf(':');
        var name = colon < 0 ? "" : line[..colon].Trim();
        var source = colon < 0 ? "" : line[(colon + 1)..].Trim();
        if (name.Length == 0 || source.Length == 0)
        {
            Refuse("Write the name of your column, a colon, and where it comes from, such as “Eggs: eggs_received”.");
        }
        else if (columns.Any(c => c.Name == name))
        {
            Refuse($"There is a column “{name}” already.");
        }
        else if (source[0] == '"')
        {
            if (source.Length < 2 || source[^1] != '"')
            {
                Refuse("A fixed text needs a quotation mark at both ends.");
            }
            else
            {
                columns.Add(new TotalsColumn(name, (_, _) => source[1..^1]));
            }
        }
        else
        {
            AddSum(name, source, Refuse);
        }

        void Refuse(string why) => troubles.Add(new MappingTrouble(index, why));
    }

    private void AddSum(string name, string source, Action<string> refuse)
    {
        var terms = new List<(int Sign, TotalsColumn Column)>();
        var sign = 1;
        foreach (var (word, i) in source.Replace("+", " + ", StringComparison.Ordinal).Replace("-", " - ", StringComparison.Ordinal)
            .Split(' ', StringSplitOptions.RemoveEmptyEntries).Select((w, i) => (w, i)))
        {
            if (i % 2 == 1)
            {
                sign = word switch { "+" => 1, "-" => -1, _ => 0 };
                if (sign == 0)
                {
                    refuse($"Between two columns stands + or −, not “{word}”.");
                    return;
                }
            }
            else if (TotalsColumns.All.FirstOrDefault(c => c.Name == word) is { } column)
            {
                terms.Add((sign, column));
            }
            else
            {
                refuse($"The totals have no column “{word}”. They have: {string.Join(", ", TotalsColumns.All.Select(c => c.Name))}.");
                return;
            }
        }

        if (terms.Count == 1 && terms[0].Sign == 1 && !source.EndsWith('+') && !source.EndsWith('-'))
        {
            columns.Add(new TotalsColumn(name, terms[0].Column.Of));
        }
        else if (terms.Find(t => TotalsColumns.Counts.All(c => c.Name != t.Column.Name)) is { Column: not null } odd)
        {
            refuse($"Only numbers of eggs and fish can be added up; {odd.Column.Name} is none.");
        }
        else if (source.EndsWith('+') || source.EndsWith('-'))
        {
            refuse("A column is missing at the end.");
        }
        else
        {
            columns.Add(new TotalsColumn(name, (season, tank) => terms.Sum(t => t.Sign * (int)t.Column.Of(season, tank)!)));
        }
    }
}

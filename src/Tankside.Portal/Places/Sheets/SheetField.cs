using Tankside.Portal.Shell.Sheets;

namespace Tankside.Portal.Places.Sheets;

/// <summary>Something that a column of such a sheet can say.</summary>
/// <param name="Key">Kept with the import.</param>
/// <param name="Word">As the page names it.</param>
/// <param name="Headings">What headings call it; a word with a star may go on.</param>
/// <param name="Expected">What a cell has to look like, for whoever wrote another.</param>
/// <param name="IsDay">Its cells are days, which can be written month first and day first.</param>
public sealed record SheetField(string Key, string Word, string[] Headings, string Expected, bool Required = false, bool IsDay = false)
{
    /// <summary>How closely a heading fits: the longer the words that were found in it, the closer; 0 when none was.</summary>
    /// <param name="plain">The heading as <see cref="Shell.Sheets.Headings.Plain"/> has it.</param>
    public int FitOf(string plain)
    {
        var fit = 0;
        foreach (var heading in Headings)
        {
            if (heading.Length > fit && plain.Length > 0 && Shell.Sheets.Headings.Has(plain, heading))
            {
                fit = heading.Length;
            }
        }

        return fit;
    }
}

/// <summary>A field of a thing that is kept: how its cell is read, and how the thing's value is written and set.</summary>
/// <param name="Read">The value as it is written here, from a cell; null for a cell that cannot be read.</param>
public sealed record ThingField<T>(SheetField Field, Func<string, string?> Read, Func<T, string> Get, Action<T, string> Set);

/// <summary>A value of a field before and after.</summary>
public sealed record FieldChange(string Key, string Word, string From, string To);

/// <summary>The cells of a row by their field.</summary>
public sealed class PlaceCells(SheetRow row, IReadOnlyList<string> meanings, List<string> why)
{
    public SheetRow Row { get; } = row;

    /// <summary>What is unclear about the row so far.</summary>
    public IReadOnlyList<string> Why => why;

    /// <summary>The cell of a field, its blanks made single; empty where nothing is said.</summary>
    public string this[SheetField field]
    {
        get
        {
            for (var column = 0; column < meanings.Count; column++)
            {
                if (meanings[column] == field.Key)
                {
                    var cell = Row[column];
                    return CellWords.SaysNothing(cell) ? "" : Shell.Sheets.Headings.Sound(string.Join(' ', cell.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries))).Normalize();
                }
            }

            return "";
        }
    }

    public void Unclear(string reason) => why.Add(reason);

    /// <summary>A cell that must say something.</summary>
    public string Need(SheetField field)
    {
        var cell = this[field];
        if (cell.Length == 0)
        {
            Unclear($"The row names no {field.Word}. Expected: {field.Expected}.");
        }

        return cell;
    }

    /// <summary>What the row would change of a thing; of one that is not there yet, all that the row says of it.</summary>
    public IReadOnlyList<FieldChange> Compare<T>(T? there, IReadOnlyList<ThingField<T>> fields)
        where T : class
    {
        var changes = new List<FieldChange>();
        foreach (var field in fields)
        {
            var cell = there is null && field.Field.Required ? Need(field.Field) : this[field.Field];
            if (cell.Length == 0)
            {
                continue; // What a sheet does not say stays as it is.
            }

            if (field.Read(cell) is not { } value)
            {
                Unclear($"“{SheetTexts.Shortened(cell)}” is no {field.Field.Word}. Expected: {field.Field.Expected}.");
            }
            else if ((there is null ? "" : field.Get(there)) is var before && before != value)
            {
                changes.Add(new FieldChange(field.Field.Key, field.Field.Word, before, value));
            }
        }

        return changes;
    }
}

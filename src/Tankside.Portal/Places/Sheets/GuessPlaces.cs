using Tankside.Portal.Shell.Sheets;

namespace Tankside.Portal.Places.Sheets;

/// <summary>A sheet as it was guessed to be read.</summary>
public sealed record GuessedSheet(IPlaceSheet Kind, PlaceColumns Columns, IReadOnlyList<SheetRow> Rows);

/// <summary>Guesses what a sheet holds and what its columns mean, from its headings.</summary>
public static class GuessPlaces
{
    private static readonly object Child = new();

    /// <param name="said">What whoever sent it said it holds; null for a guess.</param>
    public static GuessedSheet Of(SheetFile file, IReadOnlyList<IPlaceSheet> kinds, IPlaceSheet? said)
    {
        var best = (said is null ? kinds : [said]).Select(kind => (Kind: kind, Header: HeaderFor(file, kind)))
            .MaxBy(k => (Complete(k.Kind, k.Header.Titles) ? 100 : 0) + Meanings(k.Kind, k.Header.Titles).Count(m => m.Length > 0));
        var meanings = Meanings(best.Kind, best.Header.Titles);
        var rows = file.Rows().SkipWhile(r => r.Number <= best.Header.LastRow).Where(r => !r.IsBlank).ToList();
        return new GuessedSheet(
            best.Kind,
            new PlaceColumns { HowRead = file.HowRead, Titles = [.. best.Header.Titles.Take(SheetLimits.MostColumns)], Meanings = meanings, Order = OrderOf(best.Kind, meanings, rows) },
            rows);
    }

    /// <summary>The meanings of titles for another kind of sheet; of several columns with one meaning the first is taken.</summary>
    public static IReadOnlyList<string> Meanings(IPlaceSheet kind, IReadOnlyList<string> titles)
    {
        var meanings = new List<string>();
        foreach (var title in titles.Take(SheetLimits.MostColumns))
        {
            var field = FieldOf(kind, title);
            meanings.Add(field is null || meanings.Contains(field.Key) ? "" : field.Key);
        }

        return meanings;
    }

    /// <summary>
    /// The order that makes dates of the most cells; when both do and mean other days, the one in which no last day is before its first. Null
    /// when that does not tell either.
    /// </summary>
    public static DateOrder? OrderOf(IPlaceSheet kind, IReadOnlyList<string> meanings, IReadOnlyList<SheetRow> rows)
    {
        var columns = kind.Fields.Where(f => f.IsDay).Select(f => meanings.ToList().IndexOf(f.Key)).Where(c => c >= 0).ToList();
        var cells = rows.SelectMany(r => columns.Select(c => r[c])).Where(c => SheetDates.Ways(c) is not null).ToList();
        var (month, day) = (Reads(DateOrder.MonthFirst), Reads(DateOrder.DayFirst));
        if (month.Count != day.Count)
        {
            return month.Count > day.Count ? DateOrder.MonthFirst : DateOrder.DayFirst;
        }

        var (monthBack, dayBack) = (Backwards(DateOrder.MonthFirst), Backwards(DateOrder.DayFirst));
        return month.SequenceEqual(day) ? DateOrder.MonthFirst
            : (monthBack == 0) == (dayBack == 0) ? null
            : monthBack == 0 ? DateOrder.MonthFirst : DateOrder.DayFirst;

        List<DateOnly> Reads(DateOrder order) => [.. cells.Select(c => SheetDates.Read(c, order)?.Day).OfType<DateOnly>()];

        int Backwards(DateOrder order) => columns.Count < 2 ? 0
            : rows.Count(r => SheetDates.Read(r[columns[0]], order) is { } first && SheetDates.Read(r[columns[1]], order) is { } last && last.Day < first.Day);
    }

    /// <summary>Headings that name children's data stand in the same row as the others: they help to find it.</summary>
    private static SheetHeader HeaderFor(SheetFile file, IPlaceSheet kind) =>
        SheetHeader.Find(file.Rows(), new HeadingReader(t => ChildWords.IsOfChildren(t) ? Child : FieldOf(kind, t), _ => false));

    private static bool Complete(IPlaceSheet kind, IReadOnlyList<string> titles) =>
        !new PlaceColumns { Meanings = Meanings(kind, titles) }.MissingFor(kind).Any();

    private static SheetField? FieldOf(IPlaceSheet kind, string title)
    {
        var plain = Headings.Plain(title);
        return kind.Fields.Select(f => (Field: f, Fit: f.FitOf(plain))).Where(f => f.Fit > 0).OrderByDescending(f => f.Fit).Select(f => f.Field).FirstOrDefault();
    }
}

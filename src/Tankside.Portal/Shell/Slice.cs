using System.Globalization;

namespace Tankside.Portal.Shell;

/// <summary>The rows of one page of a long list.</summary>
/// <param name="Number">The page shown, from 1; the last one where a later one was asked for.</param>
/// <param name="Pages">How many there are; 1 where all stand on one page.</param>
/// <param name="Whole">True when all were asked for, as for printing.</param>
public sealed record Slice<T>(IReadOnlyList<T> Rows, int Number, int Pages, bool Whole);

public static class Slice
{
    /// <summary>A list of so many rows is one page: nobody turns pages in a programme of a hundred tanks.</summary>
    public const int Size = 100;

    /// <summary>What the address asks for to see all at once.</summary>
    public const string All = "all";

    /// <param name="asked">What the address says; whatever is no number is the first page.</param>
    public static Slice<T> Of<T>(IReadOnlyList<T> all, string? asked)
    {
        var pages = Math.Max(1, (all.Count + Size - 1) / Size);
        if (asked == All)
        {
            return new Slice<T>(all, 1, pages, Whole: true);
        }

        var number = int.TryParse(asked, NumberStyles.Integer, CultureInfo.InvariantCulture, out var page) ? Math.Clamp(page, 1, pages) : 1;
        return new Slice<T>([.. all.Skip((number - 1) * Size).Take(Size)], number, pages, Whole: false);
    }
}

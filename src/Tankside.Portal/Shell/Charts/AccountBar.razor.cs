using System.Globalization;
using Microsoft.AspNetCore.Components;

namespace Tankside.Portal.Shell.Charts;

/// <summary>
/// Eggs in on the left, where every one went on the right, what nobody can explain last. A negative rest is drawn too,
/// as the open space beside the ends that have no egg to come from.
/// </summary>
public partial class AccountBar
{
    private const double Top = 8, Row = 27, Full = 230;

    private List<Piece> pieces = [];
    private double unit;
    private double height;
    private double digits;

    /// <summary>One entry a source, such as deliveries and transfers in.</summary>
    [Parameter, EditorRequired]
    public IReadOnlyList<AccountEntry> In { get; set; } = [];

    /// <summary>Every known end, in the order to draw them.</summary>
    [Parameter, EditorRequired]
    public IReadOnlyList<AccountEntry> Ends { get; set; } = [];

    /// <summary>The text alternative: one sentence that says what the picture shows.</summary>
    [Parameter, EditorRequired]
    public string Label { get; set; } = "";

    [Parameter]
    public string? Caption { get; set; }

    [Parameter]
    public AccountWords Words { get; set; } = new();

    [Parameter]
    public CultureInfo? Culture { get; set; }

    private CultureInfo Reader => Culture ?? CultureInfo.CurrentCulture;

    private int Received => In.Sum(entry => entry.Count);

    /// <summary>What came in less every known end; negative when more ended than came.</summary>
    private int Unaccounted => Received - Ends.Sum(entry => entry.Count);

    protected override void OnParametersSet()
    {
        var largest = Math.Max(Math.Max(Received, Ends.Sum(entry => entry.Count)), 1);
        unit = Full / largest;
        pieces = [];
        var from = Top;
        foreach (var entry in Ends.Append(new AccountEntry(Words.Unaccounted, Unaccounted)))
        {
            var size = Math.Max(entry.Count, 0) * unit;
            pieces.Add(new(entry, from, size, from + size / 2, pieces.Count == Ends.Count));
            from += size;
        }

        SpreadNames();
        digits = pieces.Max(piece => Number(piece.Entry.Count).Length) * 9.2;
        height = Math.Max(pieces[^1].TextY + Row / 2, from) + 10;
    }

    /// <summary>Small ends would print their names over one another: each name gets a row, the bar keeps its true size.</summary>
    private void SpreadNames()
    {
        var bottom = Top + Math.Max(Full, pieces.Count * Row) - Row / 2;
        for (var i = 0; i < pieces.Count; i++)
        {
            var highest = i == 0 ? Top + Row / 2 : pieces[i - 1].TextY + Row;
            pieces[i] = pieces[i] with { TextY = Math.Max(pieces[i].TextY, highest) };
        }
        for (var i = pieces.Count - 1; i >= 0; i--)
        {
            var lowest = i == pieces.Count - 1 ? bottom : pieces[i + 1].TextY - Row;
            pieces[i] = pieces[i] with { TextY = Math.Min(pieces[i].TextY, lowest) };
        }
    }

    private string Number(int count) => count < 0
        ? "−" + Math.Abs((long)count).ToString("N0", Reader)
        : count.ToString("N0", Reader);

    private sealed record Piece(AccountEntry Entry, double From, double Size, double TextY, bool IsRest);
}

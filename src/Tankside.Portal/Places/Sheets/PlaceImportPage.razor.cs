using System.Globalization;
using Microsoft.AspNetCore.Components;
using Tankside.Hatchery.Places;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell.Sheets;

namespace Tankside.Portal.Places.Sheets;

public sealed class PlaceImportForm;

public sealed partial class PlaceImportPage(ShownPlaces show, ChangePlaceImport change, StorePlaces store, UndoPlaces undo)
{
    private ShownPlaceImport? shown;
    private IReadOnlyList<IPlaceSheet> kinds = [];

    [Parameter]
    public Guid Id { get; set; }

    [SupplyParameterFromQuery(Name = "page")]
    public string? Page { get; set; }

    /// <summary>Which rows to show; all when it names no fate.</summary>
    [SupplyParameterFromQuery(Name = "only")]
    public string? Only { get; set; }

    /// <summary>The import's version as the asker saw it, and the rows as they were shown.</summary>
    [SupplyParameterFromForm(FormName = "store")]
    public int? Seen { get; set; }

    [SupplyParameterFromForm(FormName = "store")]
    public string? Print { get; set; }

    [SupplyParameterFromForm(FormName = "discard")]
    public int? SeenByDiscarder { get; set; }

    private int PageNumber => int.TryParse(Page, CultureInfo.InvariantCulture, out var page) ? page : 1;

    private CurrentUser Asking => CurrentUser.From(Http.User)!;

    private string Address => $"/places/import/{Id}";

    protected override async Task OnInitializedAsync()
    {
        kinds = show.KindsFor(Asking);
        shown = await show.LoadAsync(Asking, Id, Http.RequestAborted);
        if (shown is null)
        {
            Navigation.NotFound();
        }
    }

    private async Task StoreAsync() => Leave($"{Address}#notice", await store.HandleAsync(Asking, Id, Seen ?? -1, Print ?? "", Http.RequestAborted, Ticked()));

    /// <summary>The events of a calendar that are ticked; null for a sheet, whose rows all count.</summary>
    private HashSet<int>? Ticked() => shown?.Columns.IsCalendar != true
        ? null
        : [.. Http.Request.Form["keep"].Select(k => int.TryParse(k, CultureInfo.InvariantCulture, out var row) ? row : -1)];

    private async Task DiscardAsync()
    {
        var notice = await change.DiscardAsync(Asking, Id, SeenByDiscarder ?? -1, Http.RequestAborted);
        Leave(notice.Good ? "/places/import#notice" : $"{Address}#notice", notice);
    }

    private async Task UndoAsync() => Leave($"{Address}#notice", await undo.HandleAsync(Asking, Id, Http.RequestAborted));

    /// <summary>What is left out of the form or makes no sense stays as it was.</summary>
    private async Task ReadAsAsync()
    {
        var (form, columns) = (Http.Request.Form, shown!.Columns);
        var holds = Enum.TryParse<PlaceSheet>(form["holds"], out var chosen) && Enum.IsDefined(chosen) ? chosen : shown.Import.Holds;
        var keys = shown.Kind.Fields.Select(f => f.Key).Append("").ToHashSet(StringComparer.Ordinal);
        var read = columns with
        {
            Meanings = [.. columns.Meanings.Select((was, column) => form.ContainsKey($"meaning-{column}") && form[$"meaning-{column}"].ToString() is var said && keys.Contains(said) ? said : was)],
            Order = Enum.TryParse<DateOrder>(form["order"], out var order) && Enum.IsDefined(order) ? order : columns.Order,
        };
        var version = int.TryParse(form["version"], CultureInfo.InvariantCulture, out var seen) ? seen : -1;
        Leave($"{Address}#notice", await change.ReadAsAsync(Asking, Id, version, holds, read, Http.RequestAborted));
    }

    private string Answer(ShownPlaceImport now) => now.Import.State switch
    {
        PlaceImportState.Previewed when now.Plan is null => "This sheet needs a word from you first.",
        PlaceImportState.Previewed when now.Columns.IsCalendar && now.Plan.Stored > 0 => $"Which of these {Count(now.Plan.Stored)} events shut the school? Nothing is stored yet.",
        PlaceImportState.Previewed when now.Plan.Stored == 0 => "There is nothing new to store in this sheet.",
        PlaceImportState.Previewed => $"{Count(now.Plan.Stored)} of {Count(now.Plan.Rows.Count)} rows can be stored. Nothing is stored yet.",
        PlaceImportState.Done => $"{Count(now.Import.Added)} added, {Count(now.Import.Changed)} changed, stored {Moment(now.Import.StoredAt!.Value)} by {now.Person(now.Import.StoredBy)}.",
        PlaceImportState.Undone => $"This import was taken back on {Moment(now.Import.UndoneAt!.Value)} by {now.Person(now.Import.UndoneBy)}.",
    };

    private string Words(PlaceQuestion question) => question switch
    {
        PlaceQuestion.MonthOrDayFirst => "Do the dates begin with the month or with the day? They can be read both ways.",
        PlaceQuestion.ColumnMissing => $"Which column is the {string.Join(", and which the ", shown!.Columns.MissingFor(shown.Kind).Select(f => f.Word))}?",
        PlaceQuestion.OneMeaningTwice => "Two columns have the same meaning. Which of them is to be taken?",
    };

    private string Moment(DateTime utc) => shown!.Clock.Local(utc).ToString("d MMM yyyy, HH:mm", CultureInfo.InvariantCulture);

    private static string Count(int number) => number.ToString("N0", CultureInfo.InvariantCulture);
}

using System.Globalization;
using Microsoft.AspNetCore.Components;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Accounts;

namespace Tankside.Portal.Readings.Sheets;

public sealed class ImportForm;

public sealed partial class ImportPage(ShowImport show, ChangeImport change, UndoImport undo)
{
    private ShownImport? shown;

    [Parameter]
    public Guid Id { get; set; }

    [SupplyParameterFromQuery(Name = "page")]
    public string? Page { get; set; }

    /// <summary>The import's version as the asker saw it.</summary>
    [SupplyParameterFromForm(FormName = "store")]
    public int? Seen { get; set; }

    [SupplyParameterFromForm(FormName = "discard")]
    public int? SeenByDiscarder { get; set; }

    private int PageNumber => int.TryParse(Page, CultureInfo.InvariantCulture, out var page) ? page : 1;

    private CurrentUser Asking => CurrentUser.From(Http.User)!;

    private string Address => $"/readings/import/{Id}";

    protected override async Task OnInitializedAsync()
    {
        shown = await show.LoadAsync(Asking, Id, Http.RequestAborted);
        if (shown is null)
        {
            Navigation.NotFound();
        }
    }

    private async Task ReadAsAsync()
    {
        var form = Http.Request.Form;
        Leave($"{Address}#notice", await change.ReadAsAsync(Asking, Id, Version(form["version"]), ColumnsRead.From(form, shown!.Sheet), Http.RequestAborted));
    }

    private async Task StoreAsync() =>
        Leave($"{Address}#notice", await change.StoreAsync(Asking, Id, Seen ?? -1, shown!.Preview?.Totals.Rows ?? 0, Http.RequestAborted));

    private async Task DiscardAsync()
    {
        var notice = await change.DiscardAsync(Asking, Id, SeenByDiscarder ?? -1, Http.RequestAborted);
        Leave(notice.Good ? "/readings/import#notice" : $"{Address}#notice", notice);
    }

    private async Task UndoAsync() => Leave($"{Address}#notice", await undo.HandleAsync(Asking, Id, Http.RequestAborted));

    private string Answer(ShownImport now) => now.Import.State switch
    {
        ImportState.Previewed when now.Sheet.Columns.Questions.Count > 0 => "This sheet needs a word from you first.",
        ImportState.Previewed => $"{Count(now.Preview!.Totals.Stored)} of {Rows(now.Preview.Totals.Rows)} can be stored. Nothing is stored yet.",
        ImportState.Running => $"The readings are being stored: {Count(now.Import.Handled)} of {Rows(now.Import.Rows)}.",
        ImportState.Done => $"{Readings(now.Import.Accepted + now.Import.Asked)} of {Rows(now.Import.Rows)} stored.",
        ImportState.Undone => $"This import was taken back on {Moment(now.Import.UndoneAt!.Value)} by {now.UndoneBy}. Its readings count no more.",
    };

    private static RowTotals Totals(ShownImport now) => now.Import.State == ImportState.Previewed
        ? now.Preview!.Totals
        : new RowTotals(now.Import.Accepted, now.Import.Asked, now.Import.Duplicates, now.Import.Refused, now.Import.Blank);

    private string Moment(DateTime utc) => shown!.Sheet.Clock.Local(utc).ToString("d MMM yyyy, HH:mm", CultureInfo.InvariantCulture);

    private static string Words(ColumnQuestion question) => question switch
    {
        ColumnQuestion.WhichIsTheDate => "Which column is the date?",
        ColumnQuestion.MonthOrDayFirst => "Do the dates begin with the month or with the day? They can be read both ways.",
        ColumnQuestion.WhichTank => "Which tank are the readings of? No column names tanks.",
        ColumnQuestion.DeadOfWhatStage => "Are the dead eggs, alevins or fry? The heading does not say.",
        ColumnQuestion.WhatWasSeen => "Which column is the water temperature, or what else was seen?",
        ColumnQuestion.OneMeaningTwice => "Two columns have the same meaning. Which of them is to be taken?",
    };

    private static int Version(string? posted) => int.TryParse(posted, CultureInfo.InvariantCulture, out var version) ? version : -1;

    private static string Count(int number) => number.ToString("N0", CultureInfo.InvariantCulture);

    private static string Rows(int number) => $"{Count(number)} {(number == 1 ? "row" : "rows")}";

    private static string Readings(int number) => $"{Count(number)} {(number == 1 ? "reading" : "readings")}";
}

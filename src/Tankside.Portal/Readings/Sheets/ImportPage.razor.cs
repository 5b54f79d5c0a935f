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
        ImportState.Previewed when now.Sheet.Columns.Questions.Count > 0 => Say["This sheet needs a word from you first."],
        ImportState.Previewed => Say.Count(now.Preview!.Totals.Rows, "{1} of {0} row can be stored. Nothing is stored yet.", "{1} of {0} rows can be stored. Nothing is stored yet.", Count(now.Preview.Totals.Stored)),
        ImportState.Running => Say.Count(now.Import.Rows, "The readings are being stored: {1} of {0} row.", "The readings are being stored: {1} of {0} rows.", Count(now.Import.Handled)),
        ImportState.Done => Say.Of("{0} of {1} stored.|readings of rows", Say.Count(now.Import.Accepted + now.Import.Asked, "{0} reading", "{0} readings"), Say.Count(now.Import.Rows, "{0} row", "{0} rows")),
        ImportState.Undone => Say.Of("This import was taken back on {0} by {1}. Its readings count no more.", Moment(now.Import.UndoneAt!.Value), now.UndoneBy),
    };

    private static RowTotals Totals(ShownImport now) => now.Import.State == ImportState.Previewed
        ? now.Preview!.Totals
        : new RowTotals(now.Import.Accepted, now.Import.Asked, now.Import.Duplicates, now.Import.Refused, now.Import.Blank);

    private string Moment(DateTime utc) => shown!.Sheet.Clock.Local(utc).ToString("d MMM yyyy, HH:mm", Say.IsSpanish ? Say.Culture : CultureInfo.InvariantCulture);

    private string Words(ColumnQuestion question) => question switch
    {
        ColumnQuestion.WhichIsTheDate => Say["Which column is the date?"],
        ColumnQuestion.MonthOrDayFirst => Say["Do the dates begin with the month or with the day? They can be read both ways."],
        ColumnQuestion.WhichTank => Say["Which tank are the readings of? No column names tanks."],
        ColumnQuestion.DeadOfWhatStage => Say["Are the dead eggs, alevins or fry? The heading does not say."],
        ColumnQuestion.WhatWasSeen => Say["Which column is the water temperature, or what else was seen?"],
        ColumnQuestion.OneMeaningTwice => Say["Two columns have the same meaning. Which of them is to be taken?"],
    };

    private static int Version(string? posted) => int.TryParse(posted, CultureInfo.InvariantCulture, out var version) ? version : -1;

    private static string Count(int number) => number.ToString("N0", CultureInfo.InvariantCulture);
}

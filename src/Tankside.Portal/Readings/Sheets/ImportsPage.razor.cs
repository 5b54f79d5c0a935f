using System.Globalization;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell.Sheets;

namespace Tankside.Portal.Readings.Sheets;

/// <summary>A file on its way in.</summary>
public sealed class SheetForm
{
    public Guid Id { get; set; }

    public IFormFile? File { get; set; }
}

public sealed partial class ImportsPage(ListedImports listed, ReceiveSheet receive)
{
    private IReadOnlyList<ListedImport> imports = [];
    private ProgrammeClock clock = null!;

    private string FileHint => Say.Of("At most {0} MB and {1:#,0} rows.", SheetLimits.MostBytes / 1024 / 1024, SheetLimits.MostRows);

    private CurrentUser Asking => CurrentUser.From(Http.User)!;

    private string Answer => imports.Where(i => i.Import.State == ImportState.Done).ToList() switch
    {
        [] => Say["No sheet of readings is brought in yet."],
        [var one] => Say.Of("One sheet has brought in {0}.", Count(one.Import.Accepted + one.Import.Asked)),
        var several => Say.Of("{0} sheets have brought in {1}.", several.Count, Count(several.Sum(i => i.Import.Accepted + i.Import.Asked))),
    };

    protected override async Task LoadAsync()
    {
        (imports, clock) = await listed.LoadAsync(Asking, Http.RequestAborted);
        if (Input.Id == Guid.Empty)
        {
            Input.Id = Guid.NewGuid();
        }
    }

    private async Task ReceiveAsync()
    {
        if (Input.File is not { } file || (file.Length == 0 && file.FileName.Length == 0))
        {
            Refuse(nameof(Input.File), Say["Choose the sheet first."]);
            return;
        }

        if (file.Length > SheetLimits.MostBytes)
        {
            Refuse(nameof(Input.File), Say.Of("“{0}” is larger than {1} MB. Split the sheet and send the parts. Nothing was stored.", file.FileName, SheetLimits.MostBytes / 1024 / 1024));
            return;
        }

        using var content = new MemoryStream((int)file.Length);
        await file.CopyToAsync(content, Http.RequestAborted);
        var id = await receive.HandleAsync(
            Asking, Input.Id, file.FileName, content.ToArray(), why => Refuse(nameof(Input.File), $"“{file.FileName}”: {why}"), Http.RequestAborted);
        if (id is { } import)
        {
            Navigation.NavigateTo($"/readings/import/{import}");
        }
    }

    private string Moment(DateTime utc) => clock.Local(utc).ToString("d MMM yyyy, HH:mm", Say.IsSpanish ? Say.Culture : CultureInfo.InvariantCulture);

    private static string Number(ReadingImport import, int count) =>
        import.State == ImportState.Previewed ? "" : count.ToString("N0", CultureInfo.InvariantCulture);

    private string StateWords(ReadingImport import) => import.State switch
    {
        ImportState.Previewed => Say["looked at, nothing stored"],
        ImportState.Running => Say["being stored"],
        ImportState.Done => Say["stored|import"],
        ImportState.Undone => Say["taken back"],
    };

    private string Count(int readings) => Say.Count(readings, "one reading", "{0} readings");
}

using System.Globalization;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Portal.Accounts;

namespace Tankside.Portal.Places.Sheets;

/// <summary>A file on its way in.</summary>
public sealed class PlaceSheetForm
{
    public Guid Id { get; set; }

    public IFormFile? File { get; set; }

    /// <summary>What it holds; empty for a guess.</summary>
    public string? Holds { get; set; }
}

public sealed partial class PlaceImportsPage(ShownPlaces shown, ReceivePlaces receive)
{
    private IReadOnlyList<ListedPlaceImport> imports = [];
    private IReadOnlyList<IPlaceSheet> kinds = [];
    private ProgrammeClock clock = null!;

    private static string FileHint => string.Create(CultureInfo.InvariantCulture, $"At most {ReceivePlaces.MostBytes / 1024 / 1024} MB and {ReceivePlaces.MostRows:#,0} rows.");

    private CurrentUser Asking => CurrentUser.From(Http.User)!;

    private string Answer => imports.Count(i => i.Import.State == PlaceImportState.Done) switch
    {
        0 => "No sheet of places is brought in yet.",
        1 => "One sheet of places is brought in.",
        var several => $"{several} sheets of places are brought in.",
    };

    protected override async Task LoadAsync()
    {
        (imports, clock) = await shown.ListAsync(Asking, Http.RequestAborted);
        kinds = shown.KindsFor(Asking);
        Input.Id = Input.Id == Guid.Empty ? Guid.NewGuid() : Input.Id;
    }

    private async Task ReceiveAsync()
    {
        if (Input.File is not { } file || (file.Length == 0 && file.FileName.Length == 0))
        {
            Refuse(nameof(Input.File), "Choose the sheet first.");
            return;
        }

        if (file.Length > ReceivePlaces.MostBytes)
        {
            Refuse(nameof(Input.File), $"“{file.FileName}” is larger than {ReceivePlaces.MostBytes / 1024 / 1024} MB. Split the sheet and send the parts. Nothing was stored.");
            return;
        }

        using var content = new MemoryStream((int)file.Length);
        await file.CopyToAsync(content, Http.RequestAborted);
        PlaceSheet? said = Enum.TryParse<PlaceSheet>(Input.Holds, out var holds) && Enum.IsDefined(holds) ? holds : null;
        var id = await receive.HandleAsync(
            Asking, Input.Id, file.FileName, content.ToArray(), said, why => Refuse(nameof(Input.File), $"“{file.FileName}”: {why}"), Http.RequestAborted);
        if (id is { } import)
        {
            Navigation.NavigateTo($"/places/import/{import}");
        }
    }

    private string Moment(DateTime utc) => clock.Local(utc).ToString("d MMM yyyy, HH:mm", CultureInfo.InvariantCulture);

    private static string Number(PlaceImport import, int count) =>
        import.State == PlaceImportState.Previewed ? "" : count.ToString("N0", CultureInfo.InvariantCulture);
}

using System.Globalization;
using Microsoft.AspNetCore.Components;
using Tankside.Hatchery.Eggs;
using Tankside.Portal.Accounts;

namespace Tankside.Portal.Releases.Ledger;

/// <summary>A page with a form for one tank's ledger. A tank that is not the person's is not found.</summary>
public abstract class LineSheet<TForm>(TankLedger ledger) : SheetPage<TForm>
    where TForm : class, new()
{
    [Parameter]
    public string Code { get; set; } = "";

    /// <summary>Null when the tank was not found; then nothing is shown here.</summary>
    protected TankAccount? Account { get; private set; }

    protected CurrentUser Asking => CurrentUser.From(Http.User)!;

    protected string Address => $"/ledger/{Uri.EscapeDataString(Code)}";

    protected override async Task OnInitializedAsync()
    {
        Account = await ledger.LoadAsync(Asking, Code, Http.RequestAborted);
        if (Account is null)
        {
            Navigation.NotFound();
            return;
        }

        if (!IsPost)
        {
            Begin(Account);
        }
    }

    /// <summary>Fills in a fresh form.</summary>
    protected abstract void Begin(TankAccount account);

    /// <summary>An id of its own and the time it is now, which is when most things are written down.</summary>
    protected static void BeginLine(LineForm form, SeasonAtHand season)
    {
        form.Id = Guid.NewGuid();
        form.CountedBy = nameof(CountMethod.Hand);
        var local = season.Clock.Local(season.Now);
        form.Day = local.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
        form.Time = local.ToString("HH:mm", CultureInfo.InvariantCulture);
    }

    /// <summary>Back to the tank's ledger with what was done; stays on the form when it was refused.</summary>
    protected void LeaveWith(Notice? notice)
    {
        if (notice is not null)
        {
            Leave(Address + "#notice", notice);
        }
    }
}

using System.Globalization;
using Microsoft.AspNetCore.Components;
using Tankside.Hatchery.Kit;
using Tankside.Portal.Accounts;

namespace Tankside.Portal.Kit;

/// <summary>One piece of kit: where it is, what was done with it, and the small form for the next act.</summary>
public sealed partial class ItemPage(KitCards cards, ActOnKit act, TimeProvider time) : SheetPage<KitActForm>
{
    private KitCard? card;
    private KitActKind doing = KitActKind.Noted;
    private DateOnly today;

    [Parameter]
    public string Serial { get; set; } = "";

    /// <summary>The act whose form is shown.</summary>
    [SupplyParameterFromQuery(Name = "do")]
    public string? Do { get; set; }

    private CurrentUser Asking => CurrentUser.From(Http.User)!;

    private string Here => KitWords.Address(Serial);

    private string NoteLabel => doing switch
    {
        KitActKind.Fault => Say["What does it do, or not do?"],
        KitActKind.RepairSent => Say["To whom, and until when?"],
        KitActKind.Repaired => Say["What was done?"],
        KitActKind.WarrantyClaimed => Say["With whom, under which number?"],
        KitActKind.Retired => Say["Why? Which parts are kept?"],
        KitActKind.LoanSigned => Say["Where is the paper?"],
        KitActKind.Noted => Say["The note"],
        _ => Say["A note, if it needs one"],
    };

    private string? Caution => doing switch
    {
        KitActKind.Out => Say["An adult at the plug, a ground-fault outlet, a drip loop in every cord. Two adults lift an empty tank; nobody lifts a full one. A chiller stands upright for a day after the drive before it is switched on."],
        KitActKind.Cleaned => Say["Bleach never meets acid or ammonia. Rinse, neutralise and dry fully; no soap."],
        KitActKind.RepairSent or KitActKind.Fault => Say["Nobody opens the cooling circuit of a chiller: that is for a licensed technician."],
        KitActKind.Stored => Say["Drain a chiller and its lines fully: ice splits them. Upright, capped, above freezing."],
        _ => null,
    };

    protected override async Task LoadAsync()
    {
        card = await cards.FindAsync(Asking, Serial, Http.RequestAborted);
        if (card is null)
        {
            Http.Response.StatusCode = StatusCodes.Status404NotFound;
            return;
        }

        doing = Enum.TryParse<KitActKind>(Do, ignoreCase: true, out var kind) && KitRules.EnteredAlone.Contains(kind) ? kind : KitActKind.Noted;
        var local = card.Names.Clock.Local(time.GetUtcNow().UtcDateTime);
        today = DateOnly.FromDateTime(local);
        if (!IsPost)
        {
            Input.Id = Guid.NewGuid();
            Input.Acts = card.Item.Acts;
            Input.Day = local.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
            Input.Time = local.ToString("HH:mm", CultureInfo.InvariantCulture);
        }
    }

    private async Task ActAsync()
    {
        if (await act.HandleAsync(Asking, Serial, Input, Refuse, Http.RequestAborted) is { } notice)
        {
            Leave($"{Here}#notice", notice);
        }
        else
        {
            // Somebody may have acted meanwhile: what is shown is how it stands now.
            card = await cards.FindAsync(Asking, Serial, Http.RequestAborted);
        }
    }

    private string State(KitCard now) => now.Item.Condition switch
    {
        KitCondition.Working when now.Item.IsSpare && now.Item.DepotId is not null => Say["ready as a spare"],
        var condition => Say[KitWords.Of(condition)],
    };

    private static bool CanSwap(KitItem item) => item is { InTankId: not null, Condition: KitCondition.Working or KitCondition.Faulty };

    /// <summary>The note has its form on the page anyway.</summary>
    private static IEnumerable<KitActKind> Offered(KitItem item) => KitRules.PossibleWith(item).Where(k => k != KitActKind.Noted);

    private bool AsksForDepot(KitItem item) =>
        KitRules.GoesTo(doing) == KitPlace.Depot || (doing == KitActKind.Repaired && item.Condition == KitCondition.InRepair);

    private static ListedDepot? Depot(KitCard now) => now.Item.DepotId is { } id ? now.Names.Depots[id] : null;

    private static TankOfKit? Tank(KitCard now) => now.Item.InTankId is { } id && now.Names.Tanks.TryGetValue(id, out var tank) ? tank : null;

    private static string DepotHint(ListedDepot depot) =>
        string.Join("", new[] { depot.Holder, depot.Depot.Hours, depot.Phone }.Where(t => !string.IsNullOrWhiteSpace(t)).Select(t => $" · {t}"));
}

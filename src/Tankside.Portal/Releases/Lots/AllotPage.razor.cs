using System.Globalization;
using Microsoft.AspNetCore.Components;
using Tankside.Portal.Accounts;

namespace Tankside.Portal.Releases.Lots;

public sealed partial class AllotPage
{
    /// <summary>Rows of one form; a browser sends no more than the server takes at once.</summary>
    private const int AtOnce = 50;

    private readonly List<(string Field, string Why)> wrong = [];
    private AllotmentsAtHand? hand;

    [SupplyParameterFromQuery(Name = "page")]
    public int? PageAsked { get; set; }

    private int Pages => Math.Max(1, (int)Math.Ceiling(hand!.Tanks.Count / (double)AtOnce));

    private int Page => Math.Clamp(PageAsked ?? 1, 1, Pages);

    private string Self => Page == 1 ? "/lots/allot" : $"/lots/allot?page={Page.ToString(CultureInfo.InvariantCulture)}";

    private List<AllottableTank> Shown => [.. hand!.Tanks.Skip((Page - 1) * AtOnce).Take(AtOnce)];

    private CurrentUser Asking => CurrentUser.From(Http.User)!;

    protected override async Task LoadAsync() => hand = await Promises.LoadAsync(Asking, Http.RequestAborted);

    /// <summary>What was typed, where the form came back; else what is kept.</summary>
    private AllotRow RowOf(int i, AllottableTank tank) => Input.Rows.ElementAtOrDefault(i) is { } typed && typed.Code == tank.Code
        ? typed
        : new AllotRow { Eggs = tank.Promise?.Eggs.ToString(CultureInfo.InvariantCulture), Lot = tank.Promise?.LotId.ToString(), Day = tank.Day };

    private IEnumerable<string> Wrong(int i) => wrong.Where(w => w.Field == $"Rows[{i}].Eggs").Select(w => w.Why);

    private async Task KeepAsync()
    {
        void Say(string field, string why)
        {
            wrong.Add((field, why));
            Refuse(field, why);
        }

        if (await Promises.HandleAsync(Asking, Input, Say, Http.RequestAborted) is { } notice)
        {
            Leave(Self + "#notice", notice);
        }
    }

    private static string Headline(AllotmentsAtHand now)
    {
        var (promised, without) = (now.Tanks.Sum(t => t.Promise?.Eggs ?? 0), now.Tanks.Count(t => t.Promise is null && t.Place.Tank.ClosedAt is null));
        var order = now.Lots.Sum(l => now.OrderOf(l.Id));
        return promised == 0 ? "No eggs are promised to a tank yet."
            : $"{Figures.Of(promised)} eggs are promised; order {Figures.Of(order)}.{(without == 0 ? "" : $" {Figures.Of(without, "open tank has", "open tanks have")} no promise.")}";
    }
}

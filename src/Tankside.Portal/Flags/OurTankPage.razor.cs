using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Authorization;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Science.Eggs;

namespace Tankside.Portal.Flags;

/// <summary>The page of one tank: what its fish are doing and what comes next, then everything that stands behind it.</summary>
public partial class OurTankPage
{
    private OurTankNow? tank;
    private (string Answer, string Detail) headline;
    private bool forTeacher;
    private bool mayLedger;
    private bool mayPhotos;

    [Parameter]
    public string Code { get; set; } = "";

    [CascadingParameter]
    private Task<AuthenticationState> Signed { get; set; } = null!;

    [Inject]
    private OurTank Tanks { get; set; } = null!;

    [Inject]
    private NavigationManager Navigation { get; set; } = null!;

    protected override async Task OnInitializedAsync()
    {
        var user = CurrentUser.From((await Signed).User);
        tank = user is null ? null : await Tanks.LoadAsync(Code, user, CancellationToken.None);
        if (user is null || tank is null)
        {
            Navigation.NotFound();
            return;
        }

        headline = Headline(tank);
        forTeacher = user.Is(Role.Teacher);
        mayLedger = user.Is(Policies.Roles[Policies.Ledger]);
        mayPhotos = user.Is(Policies.Roles[Policies.Photos]);
    }

    private static (string Answer, string Detail) Headline(OurTankNow now)
    {
        if (now is not { Record.Lot: { } lot, Development: { } development })
        {
            return ("No eggs have come to this tank yet.", now.Promised is { } promised
                ? $"{CountWords.Count(promised.Eggs, "egg", "eggs")} of lot {promised.Lot} {(promised.Eggs == 1 ? "is" : "are")} promised to it."
                : "None are promised to it yet.");
        }

        var from = $"{SpeciesCodes.CommonName(lot.Species)} of lot {lot.Code}";
        if (now.Record.Fish == 0)
        {
            var closed = now.Place.Tank.ClosedAt is null ? "No fish are left in this tank, by its ledger." : "This tank is closed for the season.";
            return (closed, $"Of the {from}: {CountWords.Ends(now.Balance)}.");
        }

        var words = StageWords.Of(lot, development, now.Record.Days, now.Time);
        return (words.Next, $"{words.Place} In the tank: {CountWords.About(now.Record.Fish, from)}.");
    }

    private static string LastLooked(OurTankNow now)
    {
        if (now.Record.Recent is not [.., var last])
        {
            return now.Readings.Count == 0
                ? "Nobody has read this tank yet."
                : $"Last reading {now.Time.When(now.Readings[0].At)}, {now.Time.Ago(now.Readings[0].At)}.";
        }

        var water = now.Record.Recent.LastOrDefault(r => r.Seen.WaterC is not null);
        return water is null ? $"Last reading {now.Time.When(last.At)}, {now.Time.Ago(last.At)}, without a temperature."
            : $"The water was {now.Scale.Both(water.Seen.WaterC!.Value)} {now.Time.When(water.At)}, {now.Time.Ago(water.At)}.";
    }
}

using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Authorization;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.Readings;

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

        tank = tank.To(Say);
        headline = Headline(tank);
        forTeacher = user.Is(Role.Teacher);
        mayLedger = user.Is(Policies.Roles[Policies.Ledger]);
        mayPhotos = user.Is(Policies.Roles[Policies.Photos]);
    }

    private (string Answer, string Detail) Headline(OurTankNow now)
    {
        if (now is not { Record.Lot: { } lot, Development: { } development })
        {
            return (Say["No eggs have come to this tank yet."], now.Promised is { } promised
                ? Say.Count(promised.Eggs, "{0} egg of lot {1} is promised to it.", "{0} eggs of lot {1} are promised to it.", promised.Lot)
                : Say["None are promised to it yet."]);
        }

        var from = Say.Of("{0} of lot {1}", SpokenFish.Of(lot.Species, Say), lot.Code);
        if (now.Record.Fish == 0)
        {
            var closed = now.Place.Tank.ClosedAt is null ? Say["No fish are left in this tank, by its ledger."] : Say["This tank is closed for the season."];
            return (closed, Say.Of("Of the {0}: {1}.", from, CountWords.Ends(now.Balance, Say)));
        }

        var words = StageWords.Of(lot, development, now.Record.Days, now.Time, now.Place.Names);
        return (words.Next, $"{words.Place} {Say.Of("In the tank: {0}.", CountWords.About(now.Record.Fish, from, Say))}");
    }

    private string LastLooked(OurTankNow now)
    {
        if (now.Record.Recent is not [.., var last])
        {
            return now.Readings.Count == 0
                ? Say["Nobody has read this tank yet."]
                : Say.Of("Last reading {0}, {1}.", now.Time.When(now.Readings[0].At), now.Time.Ago(now.Readings[0].At));
        }

        var water = now.Record.Recent.LastOrDefault(r => r.Seen.WaterC is not null);
        return water is null ? Say.Of("Last reading {0}, {1}, without a temperature.", now.Time.When(last.At), now.Time.Ago(last.At))
            : Say.Of("The water was {0} {1}, {2}.", now.Scale.Both(water.Seen.WaterC!.Value), now.Time.When(water.At), now.Time.Ago(water.At));
    }
}

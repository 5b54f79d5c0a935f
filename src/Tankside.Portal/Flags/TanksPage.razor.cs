using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Authorization;
using Tankside.Portal.Accounts;

namespace Tankside.Portal.Flags;

/// <summary>The register of the tanks that the asker may see. Search, filter and page stand in the address, so that a list can be sent on.</summary>
public partial class TanksPage
{
    private RegisterPage? register;
    private TankFilter filter;
    private TimeWords time = null!;
    private ScaleWords scale = null!;

    [SupplyParameterFromQuery(Name = "search")]
    private string? Search { get; set; }

    [SupplyParameterFromQuery(Name = "show")]
    private string? Show { get; set; }

    [SupplyParameterFromQuery(Name = "page")]
    private string? Page { get; set; }

    [CascadingParameter]
    private Task<AuthenticationState> Signed { get; set; } = null!;

    [Inject]
    private TankRegister Tanks { get; set; } = null!;

    protected override async Task OnInitializedAsync()
    {
        if (CurrentUser.From((await Signed).User) is not { } user)
        {
            return;
        }

        filter = Enum.TryParse<TankFilter>(Show, ignoreCase: true, out var named) && Enum.IsDefined(named) ? named : TankFilter.All;
        var page = int.TryParse(Page, System.Globalization.CultureInfo.InvariantCulture, out var number) ? number : 1;
        register = await Tanks.LoadAsync(user, new RegisterQuestion(Search, filter, page), CancellationToken.None);
        scale = new ScaleWords(register.Unit, Say);
        if (register.Tanks is [var first, ..])
        {
            time = new TimeWords(first.Place.Calendar.Clock, register.At, Say);
        }
    }

    private string Caption(RegisterPage found)
    {
        var which = filter switch
        {
            TankFilter.All => Say.Count(found.Matches, "{0} tank", "{0} tanks"),
            TankFilter.Flagged => Say.Count(found.Matches, "{0} flagged tank", "{0} flagged tanks"),
            TankFilter.Silent => Say.Count(found.Matches, "{0} silent tank", "{0} silent tanks"),
        };
        return string.IsNullOrWhiteSpace(Search)
            ? Say.Of("{0}, in the order of their codes", which)
            : Say.Of("{0} that fit “{1}”, in the order of their codes", which, Search.Trim());
    }

    private string Stage(TankGlance tank) =>
        tank is not { Lot: { } lot, Development: { } now } ? Say["no eggs yet"]
        : tank.Fish == 0 ? Say.Of("{0}, empty", lot.Code)
        : $"{lot.Code}, {tank.Place.Names.In(Say[ReasonWords.Stage(now.Stage)], Say.Language)}";

    private string LastReading(TankGlance tank) =>
        tank.LastAt is null ? Say["none yet"] : tank.LastWaterC is { } c ? scale.Both(c) : Say["no temperature"];
}

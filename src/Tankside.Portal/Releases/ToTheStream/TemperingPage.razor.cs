using System.Globalization;
using Microsoft.AspNetCore.Components;
using Tankside.Portal.Accounts;

namespace Tankside.Portal.Releases.ToTheStream;

/// <summary>The way of a tank to the stream's temperature, asked in the address.</summary>
public sealed partial class TemperingPage
{
    private TemperingHand? hand;
    private TemperingAsked asked = new(null, null, null);

    [CascadingParameter]
    private HttpContext Http { get; set; } = null!;

    [SupplyParameterFromQuery(Name = "tank")]
    public string? Tank { get; set; }

    [SupplyParameterFromQuery(Name = "stream")]
    public string? Stream { get; set; }

    [SupplyParameterFromQuery(Name = "day")]
    public string? Day { get; set; }

    protected override async Task OnInitializedAsync()
    {
        hand = await Temper.LoadAsync(CurrentUser.From(Http.User)!, Http.RequestAborted);
        asked = TemperingAsked.Read(hand, Tank, Stream, Day);
    }

    private string Headline => asked switch
    {
        { Wrong: not null } => "Nothing was planned.",
        { Plan: { Steps.Count: 0 } plan, Tank: { } tank } => Math.Abs(plan.LeftC) < 0.28 ? $"{tank.Tank.Code} is as warm as the stream." : $"There is no school day left to turn the dial of {tank.Tank.Code}.",
        { Plan: { } plan, Tank: { } tank } =>
            $"Begin on {plan.Steps[0].On.ToString("dddd d MMMM", CultureInfo.InvariantCulture)}: {Figures.Of(plan.Steps.Count, "turn", "turns")} of the dial of {tank.Tank.Code}.",
        _ => "Which tank, how warm is the stream, and when?",
    };

    private static string Apart(double celsius) => string.Create(
        CultureInfo.InvariantCulture, $"{Math.Abs(celsius) * 1.8:0.#} °F ({Math.Abs(celsius):0.#} °C)");
}

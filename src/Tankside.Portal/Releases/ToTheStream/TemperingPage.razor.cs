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
        asked = TemperingAsked.Read(hand, Tank, Stream, Day, Say);
    }

    private string Headline => asked switch
    {
        { Wrong: not null } => Say["Nothing was planned."],
        { Plan: { Steps.Count: 0 } plan, Tank: { } tank } => Math.Abs(plan.LeftC) < 0.28 ? Say.Of("{0} is as warm as the stream.", tank.Tank.Code) : Say.Of("There is no school day left to turn the dial of {0}.", tank.Tank.Code),
        { Plan: { } plan, Tank: { } tank } =>
            Say.Count(
                plan.Steps.Count, "Begin on {1}: {0} turn of the dial of {2}.", "Begin on {1}: {0} turns of the dial of {2}.", Weekday(plan.Steps[0].On), tank.Tank.Code),
        _ => Say["Which tank, how warm is the stream, and when?"],
    };

    private string Weekday(DateOnly day) => Say.IsSpanish ? day.ToString("dddd d 'de' MMMM", Say.Culture) : day.ToString("dddd d MMMM", CultureInfo.InvariantCulture);

    private static string Apart(double celsius) => string.Create(
        CultureInfo.InvariantCulture, $"{Math.Abs(celsius) * 1.8:0.#} °F ({Math.Abs(celsius):0.#} °C)");
}

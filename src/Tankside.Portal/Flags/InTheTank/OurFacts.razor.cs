using System.Globalization;
using Microsoft.AspNetCore.Components;
using Tankside.Hatchery.Places;

namespace Tankside.Portal.Flags.InTheTank;

/// <summary>What the tank is made of, and where its label leads.</summary>
public partial class OurFacts
{
    [Parameter, EditorRequired]
    public OurTankNow Now { get; set; } = null!;

    private double Litres => Now.Place.Tank.Litres;

    private string Tap => Now.Place.School.Disinfectant switch
    {
        Disinfectant.None => Say["no disinfectant"],
        Disinfectant.Chlorine => Say["chlorine: treat it before it goes into the tank"],
        Disinfectant.Chloramine => Say["chloramine: treat it, and the ammonia it sets free too"],
        Disinfectant.Unknown => Say["disinfectant not known: treat it as chloramine and ask the supplier"],
    };

    private static string Number(double value) => value.ToString("0", CultureInfo.InvariantCulture);
}

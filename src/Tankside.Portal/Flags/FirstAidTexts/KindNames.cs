using Tankside.Hatchery.Flags;

namespace Tankside.Portal.Flags.FirstAidTexts;

/// <summary>The short name of a trouble in both languages.</summary>
public static class KindNames
{
    public static Bilingual Of(FlagKind kind) => new(FlagWords.Of(kind), Spanish(kind));

    private static string Spanish(FlagKind kind) => kind switch
    {
        FlagKind.Warm => "agua caliente",
        FlagKind.Cold => "agua fría",
        FlagKind.IcedCoil => "hielo en el serpentín",
        FlagKind.WarmingFast => "el agua se calienta rápido",
        FlagKind.ChillerFault => "enfriador",
        FlagKind.PumpFault => "bomba o aire",
        FlagKind.LowOxygen => "poco oxígeno",
        FlagKind.Ammonia => "amoníaco",
        FlagKind.Nitrite => "nitrito",
        FlagKind.Chlorine => "cloro",
        FlagKind.Metals => "metales",
        FlagKind.PhSag => "el pH baja",
        FlagKind.DieOff => "muchas muertes",
        FlagKind.Fungus => "hongos",
        FlagKind.LateHatch => "nacimiento tardío",
        FlagKind.EarlyHatch => "nacimiento temprano",
        FlagKind.FeedingNearBreak => "primera comida cerca de un receso",
        FlagKind.Silent => "sin lecturas",
        FlagKind.Contradictory => "datos que no concuerdan",
        FlagKind.StuckThermometer => "termómetro que no cambia",
        FlagKind.NotReady => "tanque no listo para huevos",
        FlagKind.Tally => "la cuenta no cuadra",
        FlagKind.ReportLate => "informe atrasado",
        FlagKind.SharedCause => "causa común",
    };
}

using System.Globalization;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;

namespace Tankside.Portal.Digests;

/// <summary>
/// A finding in one Spanish sentence, from the numbers that put it where it stands. What has no sentence of its own is named by its kind:
/// the link under it leads to the whole.
/// </summary>
internal sealed class SpanishReasons(SchoolCalendar calendar, int fish, DateTime now, TemperatureUnit unit)
{
    private static readonly CultureInfo Plain = CultureInfo.InvariantCulture;

    private static readonly string[] WeekDays = ["dom", "lun", "mar", "mié", "jue", "vie", "sáb"];

    private static readonly string[] Months = ["ene", "feb", "mar", "abr", "may", "jun", "jul", "ago", "sep", "oct", "nov", "dic"];

    public string Of(Finding finding) => $"{Head(finding)}; unos {fish.ToString("#,0", Plain)} peces{Closing}.";

    public static string Kind(FlagKind kind) => kind switch
    {
        FlagKind.Warm => "agua caliente",
        FlagKind.Cold => "agua fría",
        FlagKind.IcedCoil => "serpentín con hielo",
        FlagKind.WarmingFast => "se calienta rápido",
        FlagKind.ChillerFault => "enfriador parado",
        FlagKind.PumpFault => "bomba o aire",
        FlagKind.LowOxygen => "poco oxígeno",
        FlagKind.Ammonia => "amoníaco",
        FlagKind.Nitrite => "nitrito",
        FlagKind.Chlorine => "cloro",
        FlagKind.Metals => "metales",
        FlagKind.PhSag => "pH en descenso",
        FlagKind.DieOff => "mortandad",
        FlagKind.Fungus => "hongos",
        FlagKind.LateHatch => "eclosión tardía",
        FlagKind.EarlyHatch => "eclosión temprana",
        FlagKind.FeedingNearBreak => "primera comida cerca de las vacaciones",
        FlagKind.Silent => "sin noticias",
        FlagKind.Contradictory => "datos que se contradicen",
        FlagKind.StuckThermometer => "termómetro atascado",
        FlagKind.NotReady => "no está listo para los huevos",
        FlagKind.Tally => "la cuenta no cuadra",
        FlagKind.ReportLate => "informe atrasado",
        FlagKind.SharedCause => "causa común",
    };

    /// <summary>What tanks have in common, with a large first letter.</summary>
    public static string Sharing(SharedBy by) => by switch
    {
        SharedBy.Lot => "Lote",
        SharedBy.Run => "Viaje de reparto",
        SharedBy.Area => "Zona",
        SharedBy.Water => "Red de agua",
        SharedBy.ChillerBatch => "Serie de enfriadores",
    };

    private string Head(Finding finding) => finding.Evidence switch
    {
        TemperatureEvidence e => $"{Degrees(e.WaterC)} {When(e.At)}, {(finding.Kind == FlagKind.Warm ? "sobre" : "bajo")} el límite de {Degrees(e.Limit)} para {Stage(e.Stage)}",
        WarmingEvidence e => $"{Degrees(e.WaterC)} {When(e.At)} y subiendo{Passes(e.PassesAt, e.Limit)}",
        IceEvidence { Seen: true } e => $"Hielo en el serpentín {When(e.At)}: el agua se calentará cuando el hielo pare el flujo",
        IceEvidence e => $"El agua está más fría de lo que pide el enfriador ({Degrees(e.SetPointC)}): es probable que haya hielo en el serpentín",
        ChillerEvidence e => $"{(e.AllStopped ? "El enfriador y la bomba están parados" : "Dicen que el enfriador está parado")} desde {When(e.At)}{(e.Limit is { } limit ? Passes(e.PassesAt, limit) : "")}",
        FlowEvidence e => $"{(e.StillWater ? "El agua no se mueve" : "No hay burbujas")} desde {When(e.At)}{Air(finding.Hazard)}",
        SilenceEvidence { LastAt: { } at } => $"Sin noticias; la última lectura, {When(at)}",
        SilenceEvidence => "Sin noticias desde que llegaron los huevos",
        LossEvidence e => $"{e.Dead} muertos en {e.Days} días hasta el {Day(e.LastDay)}, donde lo usual sería {e.Expected.ToString("0.#", Plain)}",
        AmmoniaEvidence e => $"Amoníaco total {e.TotalMgL.ToString("0.##", Plain)} mg/L como N {When(e.At)}{(e.Ph is { } ph ? $", pH {ph.ToString("0.0#", Plain)}" : "; pregunte por el pH")}",
        HatchEvidence e => $"Aún sin eclosión: la mitad se esperaba hacia el {Day(e.Mid)}",
        _ => Capital(Kind(finding.Kind)),
    };

    private string Passes(PassTimes? passes, double limit) =>
        passes is null || passes.Mid <= now ? "" : $"; pasa de {Degrees(limit)} hacia {When(passes.Mid)}, actúe antes de {When(passes.Low)}";

    private string Air(Hazard hazard) => hazard.HoursLeft is { } left ? $"; hay aire al menos hasta {When(hazard.From.AddHours(left.Low))}" : "";

    private string Closing => calendar.WindowAtOrAfter(now) is { } window
        ? window.Opens <= now ? $"; la escuela cierra {When(window.Closes)}" : $"; la escuela abre {When(window.Opens)}"
        : "";

    private string Degrees(double celsius) => unit == TemperatureUnit.F
        ? $"{WaterTemperature.FromC(celsius, unit).ToString("0.#", Plain)} °F ({celsius.ToString("0.0", Plain)} °C)"
        : $"{celsius.ToString("0.0", Plain)} °C";

    /// <summary>"las 13:40" today, "el mar 13:40" within the week, "el 3 feb 13:40" beyond.</summary>
    private string When(DateTime utc)
    {
        var local = calendar.Clock.Local(utc);
        var clock = local.ToString("HH:mm", Plain);
        return (DateOnly.FromDateTime(local).DayNumber - calendar.Clock.Day(now).DayNumber) switch
        {
            0 => $"las {clock}",
            > -6 and < 6 => $"el {WeekDays[(int)local.DayOfWeek]} {clock}",
            _ => $"el {Day(DateOnly.FromDateTime(local))} {clock}",
        };
    }

    private static string Day(DateOnly day) => $"{day.Day.ToString(Plain)} {Months[day.Month - 1]}";

    private static string Stage(LifeStage stage) => stage switch
    {
        LifeStage.Egg => "huevos",
        LifeStage.Alevin => "alevines con saco",
        LifeStage.Fry => "alevines",
    };

    private static string Capital(string words) => $"{char.ToUpperInvariant(words[0])}{words[1..]}";
}

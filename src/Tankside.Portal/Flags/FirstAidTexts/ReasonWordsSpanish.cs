using System.Globalization;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Places;
using Tankside.Science.Units;

namespace Tankside.Portal.Flags.FirstAidTexts;

/// <summary>
/// A finding as one short Spanish sentence, from the very numbers the English reason is made of. Where a kind of evidence has no sentence
/// of its own yet, the name of the trouble and the time stand for it.
/// </summary>
public sealed partial class ReasonWordsSpanish(SchoolCalendar calendar, int fish, DateTime now, StageNames? names = null)
{
    private static readonly string[] WeekDays = ["dom", "lun", "mar", "mié", "jue", "vie", "sáb"];

    private static readonly string[] Months = ["ene", "feb", "mar", "abr", "may", "jun", "jul", "ago", "sep", "oct", "nov", "dic"];

    public string Of(Finding finding) => (names ?? StageNames.Standard).In(
        Sentence(finding) ?? $"{CountWords.Capital(KindNames.Of(finding.Kind).Es)}, visto {When(finding.StandsOn)}; {Fish}.", "es");

    private string? Sentence(Finding finding) => finding.Evidence switch
    {
        TemperatureEvidence e when finding.Kind == FlagKind.Warm =>
            $"{Degrees(e.WaterC)} {When(e.At)}, {Since(e)}por encima del límite de {Degrees(e.Limit)} para {Stage(e.Stage)}; {Fish}{Closing}.",
        TemperatureEvidence e =>
            $"{Degrees(e.WaterC)} {When(e.At)}, {Since(e)}por debajo del límite de {Degrees(e.Limit)} para {Stage(e.Stage)}; {Fish}.",
        SaidWarmEvidence e =>
            $"Dicen que el agua está tibia {When(e.At)} y nadie ha leído la temperatura desde entonces{(e.LastWaterC is { } w ? $" (antes {Degrees(w)})" : "")}; {Fish}{Closing}.",
        LeakEvidence e => $"Agua en el piso desde {Instant(e.At)}: la bomba y el aire pueden quedar en seco; {Fish}{Closing}.",
        CloudyEvidence e => $"Agua turbia desde {Instant(e.Since)} y sin prueba de amoníaco desde entonces; {Fish}.",
        RefillEvidence e =>
            $"{Degrees(e.WaterC)} {When(e.At)} después de {Degrees(e.FromC)} {When(e.FromAt)}, con un {Number(e.ChangedPercent, "0")}% del agua cambiada: pregunte qué tan fría estaba el agua nueva y de dónde vino; {Fish}.",
        WarmingEvidence e => Warming(e),
        IceEvidence { Seen: true } e => $"Hielo en el serpentín {When(e.At)}{(e.WaterC is { } w ? $", agua a {Degrees(w)}" : "")}{LooksLike(e)}; {Fish}{Closing}.",
        IceEvidence e =>
            $"{(e.WaterC is { } w ? Degrees(w) : "Agua muy fría")} {When(e.At)} con el enfriador fijado en {Degrees(e.SetPointC)}: quizá hay hielo en el serpentín{LooksLike(e)}; {Fish}{Closing}.",
        ChillerEvidence e => Chiller(e),
        FlowEvidence e => Flow(e, finding.Hazard),
        SilenceEvidence e => Silence(e),
        PowerCutEvidence e => PowerCut(e),
        TroubleSaidEvidence e => $"La escuela respondió {When(e.At)} que hay problemas ({Of(e.Reason)} desde {Instant(e.MarkedAt)}); {LastSeen(e.LastAt, e.LastWaterC, null)}; {Fish}.",
        ShutEvidence e =>
            $"Cerrado por {Of(e.Reason)} desde {Instant(e.Since)}: {Days(e.Days)} de clases sin lectura{(e.LastWasFlagged ? " tras una mala lectura" : "")}; {LastSeen(e.LastAt, e.LastWaterC, null)}; {Fish}.",
        LossEvidence { Rising: true } e => $"Un aumento lento: {Loss(e)}",
        LossEvidence e => Loss(e),
        AmmoniaEvidence { UnionizedN: { } poison, Ph: { } ph } e =>
            $"Amoníaco venenoso {Number(poison, "0.000")} mg/L como N (total {Number(e.TotalMgL, "0.##")}, pH {Number(ph, "0.0#")}, {Degrees(e.WaterC)}, {When(e.At)}); el límite es {Number(e.Limit, "0.000")}; {Fish}.",
        AmmoniaEvidence e =>
            $"Amoníaco total {Number(e.TotalMgL, "0.##")} mg/L como N {When(e.At)} y sin pH en una semana: el pH decide si hace daño; {Fish}.",
        HatchEvidence e =>
            $"{(e.SaidNone ? "Todavía no nacen" : "Nadie ha avisado que nacieran")}: la mitad se esperaba cerca del {Day(e.Mid)}, a más tardar el {Day(e.High95)}, hace {Days(e.DaysOver)}; {Fish}.",
        OxygenEvidence e => Oxygen(e),
        NitriteEvidence e => Nitrite(e),
        ChlorineEvidence e => Chlorine(e),
        MetalsEvidence e => Metals(e),
        PhEvidence e => Ph(e),
        FungusEvidence e => Fungus(e),
        ContradictionEvidence e => Contradiction(e),
        StuckEvidence e => Stuck(e),
        SharedCauseEvidence e => Shared(e),
        EarlyHatchEvidence e =>
            $"Nacieron el {Day(e.SeenOn)}, {Days(e.Low95.DayNumber - e.SeenOn.DayNumber)} antes de lo que se esperaba como pronto ({Day(e.Low95)}; lo más probable, {Day(e.Mid)}); {Fish}.",
        FeedingEvidence e => Feeding(e),
        ReadinessEvidence e => Readiness(e),
        TallyEvidence e => Tally(e),
        ReportEvidence e => $"Falta el informe de la liberación de {Number(e.Fish, "#,0")} {(e.Fish == 1 ? "pez" : "peces")} del {Day(e.ReleasedOn)} (permiso {e.Permit}); debía enviarse hasta el {Day(e.DueOn)}.",
        _ => null,
    };

    private string Warming(WarmingEvidence e)
    {
        var rise = $"{Degrees(e.WaterC)} {When(e.At)} y sube {Number(e.PerHour * 1.8, "0.0")} °F ({Number(e.PerHour, "0.0")} °C) por hora";
        var passes = e.PassesAt is not { } at ? $"; se queda cerca de {Degrees(e.SettlesAtC)}"
            : at.High <= now ? $"; ya debe haber pasado de {Degrees(e.Limit)}"
            : at.Low <= now ? $"; quizá ya pasó de {Degrees(e.Limit)}"
            : $"; pasa de {Degrees(e.Limit)} hacia {Instant(at.Mid)}; actúe a más tardar {When(at.Low)}";
        return $"{rise}{passes}{LooksLike(e)}; {Fish}{Closing}.";
    }

    private string Chiller(ChillerEvidence e)
    {
        var what = e.AllStopped ? "El enfriador y la bomba están apagados" : "El enfriador está apagado, según dicen,";
        var water = e.WaterC is { } w ? $", agua a {Degrees(w)}" : ", y no se sabe la temperatura";
        var passes = e is not { PassesAt: { } at, Limit: { } limit } ? ""
            : at.High <= now ? $"; ya debe haber pasado de {Degrees(limit)}, a más tardar {When(at.High)}"
            : at.Low <= now ? $"; quizá ya pasó de {Degrees(limit)}"
            : $"; podría pasar de {Degrees(limit)} desde {Instant(at.Low)}";
        return $"{what} desde {Instant(e.At)}{water}{passes}{LooksLike(e)}; {Fish}{Closing}.";
    }

    private string Flow(FlowEvidence e, Hazard hazard)
    {
        var what = (e.AllStopped, e.StillWater, e.NoBubbles) switch
        {
            (true, _, _) => "Todo está parado a la vez",
            (_, true, true) => "El agua está quieta y no hay burbujas",
            (_, true, _) => "El agua está quieta",
            _ => "No hay burbujas",
        };
        var left = hazard.HoursLeft is { } h ? Air(h, hazard.From) : "";
        return $"{what} desde {Instant(e.At)}{left}{LooksLike(e)}; {Fish}{Closing}.";
    }

    private string Air(Band hours, DateTime from) =>
        from.AddHours(hours.High) <= now ? $"; el aire probablemente se acabó, desde {Instant(from.AddHours(hours.Mid))}"
        : from.AddHours(hours.Low) <= now ? $"; el aire quizá se acabó, desde {Instant(from.AddHours(hours.Low))}"
        : $"; aire al menos hasta {Instant(from.AddHours(hours.Low))}";

    private string Loss(LossEvidence e) =>
        $"{Dead(e.Dead)} en {Days(e.Days)} hasta el {Day(e.LastDay)}, cuando lo usual sería cerca de {Number(e.Expected, "0.#")}; {Stage(e.Stage)}; quedan {Fish}{Closing}.";

    private string Silence(SilenceEvidence e)
    {
        var last = e.LastAt is { } at
            ? $"última lectura {When(at)}{(e.LastWaterC is { } w ? $" ({Degrees(w)})" : "")}"
            : "ninguna lectura desde que llegaron los huevos";
        return e.AfterBreakDays > 0 && e.MissedDays == 0
            ? $"Primer día de clases después de {Days(e.AfterBreakDays)} cerrados y sin lectura {When(now)}; {last}; {Fish}."
            : $"Sin lectura desde hace {e.MissedDays} {(e.MissedDays == 1 ? "día" : "días")} de clases{(e.LastWasFlagged ? " tras una mala lectura" : "")}; {last}; {Fish}{Closing}.";
    }

    private string Since(TemperatureEvidence e) => e.Since < e.At ? $"desde {Instant(e.Since)} " : "";

    /// <summary>The bell is the last chance of the day: say when it rings, while it matters.</summary>
    private string Closing => calendar.WindowAtOrAfter(now) is { } window
        ? window.Opens <= now ? $"; la escuela cierra {When(window.Closes)}" : $"; la escuela abre {When(window.Opens)}"
        : "";

    private string Fish => fish == 1 ? "cerca de 1 pez" : $"unos {Number(fish, "#,0")} peces";

    private static string Degrees(double celsius) => AidFigures.Degrees(celsius).Es;

    /// <summary>"a las 13:40" today, "el mar 2 feb a las 13:40" on another day.</summary>
    private string When(DateTime utc) => IsToday(utc) ? $"a {Hour(utc)}" : Instant(utc);

    /// <summary>The same after "desde", "hasta" or "antes de": "las 13:40", "el mar 2 feb a las 13:40".</summary>
    private string Instant(DateTime utc) =>
        IsToday(utc) ? Hour(utc) : $"el {Day(DateOnly.FromDateTime(calendar.Clock.Local(utc)))} a {Hour(utc)}";

    private string Hour(DateTime utc)
    {
        var local = calendar.Clock.Local(utc);
        return $"{(local.Hour == 1 ? "la" : "las")} {local.ToString("HH:mm", CultureInfo.InvariantCulture)}";
    }

    private bool IsToday(DateTime utc) => calendar.Clock.Day(utc) == calendar.Clock.Day(now);

    private static string Day(DateOnly day) => $"{WeekDays[(int)day.DayOfWeek]} {day.Day} {Months[day.Month - 1]}";

    private static string Dead(int count) => count == 1 ? "1 muerto" : $"{count} muertos";

    private static string Days(int count) => count == 1 ? "1 día" : $"{count} días";

    private static string Number(double value, string format) => AidFigures.Number(value, format).Es;

    private static string Stage(LifeStage stage) => stage switch
    {
        LifeStage.Egg => "huevos",
        LifeStage.Alevin => "alevines",
        LifeStage.Fry => "crías",
    };
}

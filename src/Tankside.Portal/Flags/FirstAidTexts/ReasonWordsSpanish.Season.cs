using Tankside.Hatchery.Flags;

namespace Tankside.Portal.Flags.FirstAidTexts;

/// <summary>Spanish reasons about the season's dates and its account.</summary>
public sealed partial class ReasonWordsSpanish
{
    private string Feeding(FeedingEvidence e)
    {
        var swimUp = e.Seen
            ? $"Empezaron a nadar el {Day(e.Mid)}"
            : $"Empezarán a nadar hacia el {Day(e.Mid)} (entre el {Day(e.Low80)} y el {Day(e.High80)}), con {Number(e.Chance * 100, "0")} % de probabilidad demasiado cerca del receso";
        return $"{swimUp}: la primera comida debe empezar antes del {Day(e.From)} o después del {Day(e.BreakLast)}; la escuela cierra del {Day(e.BreakFirst)} al {Day(e.BreakLast)}; {Fish}.";
    }

    private string Readiness(ReadinessEvidence e)
    {
        var why = (e.Why, e.WaterC, e.At, e.Since) switch
        {
            (Unready.Unread, { } w, { } at, _) => $"última lectura {When(at)} ({Degrees(w)})",
            (Unready.Unread, _, _, _) => "nunca se leyó la temperatura",
            (Unready.NotProved, { } w, _, { } since) => $"a su temperatura solo desde {Instant(since)}, ahora {Degrees(w)}",
            (_, { } w, { } at, _) => $"{Degrees(w)} {When(at)}, con el enfriador fijado en {Degrees(e.SetPointC)}",
            _ => $"el enfriador está fijado en {Degrees(e.SetPointC)}",
        };
        return $"No está listo para {Number(e.Eggs, "#,0")} {(e.Eggs == 1 ? "huevo previsto" : "huevos previstos")} el {Day(e.DueOn)}: {why}.";
    }

    private static string Tally(TallyEvidence e)
    {
        var after = e.Closed ? "El tanque está cerrado" : e.CountedAt is null ? "Según las cuentas" : "Después del conteo";
        return e.Unaccounted < 0
            ? $"{after}: hay {Number(-e.Unaccounted, "#,0")} más de los {Number(e.Came, "#,0")} que llegaron. Busque una línea doble o una entrega sin anotar."
            : $"{after}: {(e.Unaccounted == 1 ? "falta" : "faltan")} {Number(e.Unaccounted, "#,0")} de {Number(e.Came, "#,0")} sin explicación. Busque pérdidas, un traslado o una liberación sin anotar.";
    }
}

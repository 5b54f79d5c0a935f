using Tankside.Hatchery.Flags;

namespace Tankside.Portal.Flags.Reckoned;

/// <summary>The same rules in Spanish.</summary>
internal static class RuleSentencesSpanish
{
    public const string Place = "Peces que salva una llamada: lo que se perdería, sin llamar, hasta que alguien pueda actuar, menos lo que se perdería llamando. Cada peligro tiene un tiempo log-normal hasta la pérdida y una parte que entonces se pierde; peligros distintos se juntan como N (1 - Π(1 - parte)).";

    public static string Of(FlagKind kind) => kind switch
    {
        FlagKind.Warm => "La temperatura más nueva está en el límite de la etapa o por encima, o alguien dice que se siente caliente y nadie ha leído un número desde entonces.",
        FlagKind.Cold => "La temperatura más nueva está en el límite de la etapa o por debajo y no lo explica hielo en el serpentín, o el agua bajó de golpe en un cambio de agua.",
        FlagKind.IcedCoil => "Se avisó de hielo, o el agua está mucho más fría de lo que busca el enfriador.",
        FlagKind.WarmingFast => "El agua subió un paso desde la última lectura, está sobre la temperatura fijada y llega al límite dentro del plazo: T(t) = R - (R - T0) exp(-t/τ), con R del salón y τ por el tamaño y el aislante del tanque o por sus propias dos lecturas.",
        FlagKind.ChillerFault => "Lo último que se dijo del enfriador es que no funciona; sobre la temperatura fijada las horas se cuentan desde la temperatura más nueva.",
        FlagKind.PumpFault => "Lo último que se dijo es que el agua está quieta, que no hay burbujas o que hay agua en el suelo; las horas salen del oxígeno que tiene el agua y del que usan los peces.",
        FlagKind.LowOxygen => "La prueba más nueva está bajo el límite de la etapa y bajo nueve décimos de lo que el agua puede tener a su temperatura y altura, o los peces boquean y nadie ha probado desde entonces.",
        FlagKind.Ammonia => "La parte no ionizada del amoníaco total, total / (1 + 10^(pKa - pH)) con el pKa de la temperatura del agua, pasa su límite.",
        FlagKind.Nitrite => "La prueba más nueva pasa el límite; un valor alto pide otra prueba, y con dos seguidos o uno muy alto se actúa.",
        FlagKind.Chlorine => "Cualquier cloro total sobre el límite, o peces que boquean dentro de un día después de un cambio de agua.",
        FlagKind.Metals => "Muertes que empiezan poco después de nacer o en el primer nado mientras todas las pruebas de agua de la semana son buenas: una pregunta, nunca un veredicto.",
        FlagKind.PhSag => "El pH está bajo el límite, o baja con seguridad: la mediana de todas las pendientes entre las lecturas de los días.",
        FlagKind.DieOff => "Más muertos en dos días de lo que explican el pasado del tanque y los otros de su lote (la probabilidad de tantos o más si nada anduviera mal), o una suma acumulada de ellos que pasa su intervalo.",
        FlagKind.Fungus => "Lo último que se dijo de la pelusa blanca es que sí; peor mientras no se sacan los muertos.",
        FlagKind.LateHatch => "Hoy ya pasó el extremo tardío del intervalo de 95% del nacimiento, y no se ha avisado de ninguno.",
        FlagKind.EarlyHatch => "El primer nacimiento se vio antes del extremo temprano del intervalo de 95%, como estaba ese día.",
        FlagKind.FeedingNearBreak => "Es más probable que no que el primer nado caiga en un descanso o en los días de clase antes de uno.",
        FlagKind.NotReady => "Los huevos llegan en pocos días y el tanque no se ha leído, está lejos de su temperatura fijada o lleva poco tiempo en ella.",
        FlagKind.Silent => "Días de clase sin lectura según el calendario de esa escuela; basta uno después de una mala lectura o de un descanso. Su peligro es la frecuencia de las fallas por las horas en que nadie miró.",
        FlagKind.Contradictory => "Dos datos de una misma mirada que no pueden ser ciertos a la vez.",
        FlagKind.StuckThermometer => "Demasiadas lecturas iguales con medio día o más entre ellas, según la finura con que se lee el termómetro.",
        FlagKind.Tally => "Quedan más de los que llegaron, o falta más de lo que se suele errar al contar.",
        FlagKind.ReportLate => "Pasó el día en que tocaba el informe de una liberación, y nadie ha dicho que se envió.",
        FlagKind.SharedCause => "Los problemas se juntan en los tanques de un lote, una entrega, una zona, un agua o una serie de enfriadores más de lo que explica el azar: binomial y prueba exacta de Fisher, ajustadas según Benjamini y Hochberg.",
    };
}

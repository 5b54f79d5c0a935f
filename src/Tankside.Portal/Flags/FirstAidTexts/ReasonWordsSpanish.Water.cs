using Tankside.Hatchery.Flags;

namespace Tankside.Portal.Flags.FirstAidTexts;

/// <summary>Spanish sentences on water tests, on what is seen in the water, and on readings that cannot be right.</summary>
public sealed partial class ReasonWordsSpanish
{
    private string Oxygen(OxygenEvidence e)
    {
        if (e is not { MgL: { } oxygen, Limit: { } limit })
        {
            return $"Los peces boquean en la superficie ({When(e.At)}) y nadie ha medido el oxígeno; {Fish}{Closing}.";
        }

        var lasts = e.PassesAt is not { } at ? ""
            : at.Low <= now ? $"; quizá ya pasó de {Number(e.HoursLimit, "0.#")} mg/L"
            : $"; baja de {Number(e.HoursLimit, "0.#")} mg/L hacia {Instant(at.Mid)}, actúe a más tardar {When(at.Low)}";
        return $"Oxígeno {Number(oxygen, "0.0#")} mg/L {When(e.At)}, por debajo del límite de {Number(limit, "0.0#")} para {Stage(e.Stage)}{(e.Gasping ? "; los peces boquean" : "")}{lasts}; {Fish}{Closing}.";
    }

    private string Nitrite(NitriteEvidence e)
    {
        var what = e is { BeforeMgL: { } before, BeforeAt: { } at } ? $", después de {Number(before, "0.0##")} {When(at)}"
            : e.TestAgain ? ": un solo valor alto, mida otra vez antes que nada"
            : "";
        return $"Nitrito {Number(e.MgL, "0.0##")} mg/L como N {When(e.At)}, por encima del límite de {Number(e.Limit, "0.0#")}{what}; {Fish}.";
    }

    private string Chlorine(ChlorineEvidence e)
    {
        var test = e is { MgL: { } chlorine, TestedAt: { } tested }
            ? $"cloro total {Number(chlorine, "0.0##")} mg/L {When(tested)}, el límite es {Number(e.Limit, "0.0##")}" : null;
        var sign = e is { GaspingAt: { } gasping, ChangedAt: { } changed }
            ? $"los peces boquean {When(gasping)} después de un cambio de agua{(e.ChangedPercent is { } part ? $" del {Number(part, "0.#")} %" : "")} {When(changed)}" : null;
        return $"{CountWords.Capital(string.Join(", y ", new[] { sign, test }.OfType<string>()))}; {Fish}{Closing}.";
    }

    private string Metals(MetalsEvidence e) =>
        $"{Dead(e.Dead)} del {Day(e.FirstDay)} al {Day(e.LastDay)}, después de {(e.AfterSwimUp ? "empezar a nadar" : "nacer")} hacia el {Day(e.BegunOn)}, con buenas pruebas de agua (pH {Number(e.Ph, "0.0#")}): ¿cobre o zinc de una tubería, llave o lata? {CountWords.Capital(Fish)}.";

    private string Ph(PhEvidence e)
    {
        var low = e.Limit is { } limit ? $", por debajo del límite de {Number(limit, "0.0#")}" : "";
        var fall = e is { FallPerWeek: { } pace, FromPh: { } from, FromAt: { } at }
            ? $", baja {Number(pace, "0.0#")} por semana desde {Number(from, "0.0#")} el {Day(calendar.Clock.Day(at))}" : "";
        return $"pH {Number(e.Ph, "0.0#")} {When(e.At)}{low}{fall}; {Fish}.";
    }

    private string Fungus(FungusEvidence e)
    {
        var since = e.Since < e.At ? $", desde {Instant(e.Since)}" : "";
        var picked = e.DeadLeft ? "; nadie dice que se sacaran los muertos" : e.DeadPicked is > 0 and { } dead ? $"; {Dead(dead)} {(dead == 1 ? "sacado" : "sacados")}" : "";
        return $"Pelusa blanca {When(e.At)}{since}; {Stage(e.Stage)}{picked}; {Fish}.";
    }

    private string Contradiction(ContradictionEvidence e) => e.Other switch
    {
        SaidFact.WaterFell when e is { OneWaterC: { } after, OtherWaterC: { } before } =>
            $"Dicen que el enfriador está apagado, pero el agua bajó de {Degrees(before)} {When(e.OtherAt)} a {Degrees(after)} {When(e.OneAt)}; {Fish}.",
        SaidFact.HatchNotDue => $"Dicen que se les dio comida {When(e.OneAt)}, pero todavía no puede haber nacido ninguno; {Fish}.",
        _ => $"\"{CountWords.Capital(Said(e.One))}\" ({When(e.OneAt)}) y \"{Said(e.Other)}\" ({When(e.OtherAt)}) no pueden ser ciertos a la vez; {Fish}.",
    };

    private static string Said(SaidFact fact) => fact switch
    {
        SaidFact.NoneHatched => "no nació ninguno",
        SaidFact.MostHatched => "nacieron casi todos",
        SaidFact.SomeSwim => "algunos nadan",
        SaidFact.DeadAlevins => "alevines muertos",
        SaidFact.DeadFry => "crías muertas",
        SaidFact.Fed => "se les dio comida",
        SaidFact.HatchNotDue => "todavía no toca nacer",
        SaidFact.ChillerOff => "enfriador apagado",
        SaidFact.WaterFell => "el agua se enfrió",
    };

    private string Stuck(StuckEvidence e) =>
        $"{Degrees(e.WaterC)} {e.Looks} veces seguidas desde el {Day(e.Since)}: ¿se mueve todavía el termómetro? {CountWords.Capital(Fish)}.";

    /// <summary>The short end of a reason; nothing where no fault leads, or where the sentence has named it already.</summary>
    private static string LooksLike(Evidence evidence) => evidence.LooksLike switch
    {
        null or Suspect.NothingWrong => "",
        Suspect.CoilIced when evidence is IceEvidence => "",
        { } suspect => $"; parece {Of(suspect)}",
    };

    private static string Of(Suspect suspect) => suspect switch
    {
        Suspect.ChillerDead => "el enfriador mismo",
        Suspect.CoilIced => "hielo en el serpentín",
        Suspect.RoomOrSun => "calor del salón, sol o rejilla tapada",
        Suspect.SetPoint => "una temperatura o unidad mal fijada",
        Suspect.Probe => "una sonda mal puesta",
        Suspect.BlockedFlow => "una manguera tapada",
        Suspect.PlugOrBreaker => "el enchufe o el interruptor de este tanque",
        Suspect.PowerCut => "un corte de luz",
        Suspect.PumpStopped => "la bomba",
        Suspect.AirStopped => "la bomba de aire o la piedra",
        Suspect.Thermometer => "un termómetro que falla",
        Suspect.WaterChange => "agua nueva demasiado caliente o fría",
        Suspect.NothingWrong => "que no pasa nada",
    };
}

using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Places;

namespace Tankside.Portal.Flags.FirstAidTexts;

/// <summary>Spanish words for what is known, and not known, of tanks in a marked area.</summary>
public sealed partial class ReasonWordsSpanish
{
    private string PowerCut(PowerCutEvidence e)
    {
        var last = LastSeen(e.LastAt, e.LastWaterC, e.LastMoving);
        if (e.BackAt is { } back)
        {
            return $"La luz volvió {When(back)} y nadie ha visto este tanque desde que se fue {When(e.Since)}; {last}; {Fish}.";
        }

        var expected = e.ExpectedBack is { } until ? $", se espera de vuelta {When(until)}" : "";
        var air = e.AirPassesAt is { } a ? Passes(a, "falta aire") : null;
        var heat = e.HeatPassesAt is { } h ? Passes(h, $"se pasa de {Degrees(e.HeatLimit)}") : null;
        string?[] told = e.AirFirst ? [air, heat] : [heat, air];
        return $"Sin luz desde {Instant(e.Since)}{expected}; {Stage(e.Stage)}{string.Concat(told.OfType<string>().Select(t => $"; {t}"))}; {last}; {Fish}.";
    }

    private string Passes(PassTimes at, string what) =>
        at.High <= now ? $"{what} ya, desde {Instant(at.Mid)} más o menos"
        : at.Low <= now ? $"{what} quizá ya, hacia {Instant(at.Mid)}"
        : $"{what} hacia {Instant(at.Mid)}; actúe a más tardar {When(at.Low)}";

    private string LastSeen(DateTime? at, double? waterC, bool? moving)
    {
        if (at is not { } seen)
        {
            return "ninguna lectura desde que llegaron los huevos";
        }

        var flow = moving switch { true => ", el agua se movía", false => ", el agua quieta", null => "" };
        return $"última lectura {When(seen)}{(waterC is { } w ? $", {Degrees(w)}" : "")}{flow}";
    }

    private static string Of(SweepReason reason) => reason switch
    {
        SweepReason.Snow => "nieve",
        SweepReason.PowerCut => "corte de luz",
        SweepReason.Flood => "inundación",
        SweepReason.Other => "problemas en la zona",
    };
}

using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;

namespace Tankside.Portal.Flags.FirstAidTexts;

/// <summary>What changes in first aid once the diagnosis has a leader: the question, and with ice on the coil the steps too.</summary>
public static class SuspectAid
{
    /// <summary>The card for what the trouble looks like; the usual one where nothing leads or it has said all already.</summary>
    public static FirstAidScript Fitted(FirstAidScript usual, FlagKind kind, LifeStage stage, AidTank tank, Evidence? evidence) => evidence switch
    {
        null or { LooksLike: null } or RefillEvidence => usual,
        { LooksLike: Suspect.CoilIced } => IsIce(kind, evidence) ? ColdAid.IceUnderWarmth(stage, tank, kind != FlagKind.ChillerFault) : usual,

        // There the usual question asks how the fish fare.
        { LooksLike: Suspect.PumpStopped or Suspect.AirStopped } when kind == FlagKind.PumpFault => usual,
        { LooksLike: { } suspect } => Question(suspect, tank) is { } question ? usual with { AskNext = question } : usual,
    };

    /// <summary>Whether ice on the coil is what has to be helped, under water that is warm.</summary>
    public static bool IsIce(FlagKind kind, Evidence? evidence) => evidence is { LooksLike: Suspect.CoilIced } and not ChillerEvidence { AllStopped: true }
        && kind is FlagKind.Warm or FlagKind.WarmingFast or FlagKind.ChillerFault;

    private static Bilingual? Question(Suspect suspect, AidTank tank) => suspect switch
    {
        Suspect.ChillerDead => new(
            "Does the chiller hum, is its grille warm, and what does its own display say?",
            "¿Zumba el enfriador, está tibia su rejilla y qué dice su propia pantalla?"),
        Suspect.RoomOrSun => new(
            "Is sun on the glass, a heater near, the room hot, or the chiller's grille dusty or against the wall?",
            "¿Le da el sol al vidrio, hay calefacción cerca, hace calor en el salón, o está la rejilla del enfriador con polvo o contra la pared?"),
        Suspect.SetPoint => new(
            $"What does the chiller's set screen say: {AidFigures.Degrees(tank.SetPointC).En}, in the right unit, cooling and not heating?",
            $"¿Qué dice la pantalla del enfriador: {AidFigures.Degrees(tank.SetPointC).Es}, en la escala correcta, enfriando y no calentando?"),
        Suspect.Probe => new(
            "Is the probe under water, mid-tank, where the water moves?",
            "¿Está la sonda bajo el agua, en el centro, donde el agua se mueve?"),
        Suspect.BlockedFlow => new(
            "Does cold water come back out of the chiller, and is a hose kinked or clogged?",
            "¿Vuelve agua fría del enfriador, y hay una manguera doblada o tapada?"),
        Suspect.PlugOrBreaker or Suspect.PowerCut => new(
            "Is only this outlet dead, or the whole room or building? Are fish at the surface?",
            "¿No hay corriente solo en este tomacorriente, o en todo el salón o el edificio? ¿Hay peces en la superficie?"),
        Suspect.PumpStopped => new(
            "Does the water move, and does the pump hum?",
            "¿Se mueve el agua, y zumba la bomba?"),
        Suspect.AirStopped => new(
            "Are there bubbles, and does the air pump hum?",
            "¿Hay burbujas, y zumba la bomba de aire?"),
        Suspect.Thermometer => new(
            "Does the thermometer say 32 °F (0 °C) after five minutes in a glass of ice and water?",
            "¿Marca el termómetro 32 °F (0 °C) después de cinco minutos en un vaso de hielo y agua?"),
        Suspect.WaterChange => new(
            "How much new water went in, and how warm or cold was it?",
            "¿Cuánta agua nueva se echó, y qué tan caliente o fría estaba?"),
        Suspect.CoilIced or Suspect.NothingWrong => null,
    };
}

using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using static Tankside.Portal.Flags.FirstAidTexts.Steps;

namespace Tankside.Portal.Flags.FirstAidTexts;

/// <summary>Water that is or soon will be too warm: hold the cold first, then find out why.</summary>
public static class HeatAid
{
    private static readonly Bilingual LeaveThemBe = new(
        "Leave the eggs where they lie; do not lift the basket.",
        "Deje los huevos donde están; no levante la canasta.");

    private static readonly Bilingual LeaveAlevins = new(
        "Leave the alevins on the bottom; do not net them.",
        "Deje los alevines en el fondo; no los saque con la red.");

    public static FirstAidScript Warm(LifeStage stage, AidTank tank, double? waterC) => new(
        [
            new("An adult looks first: are pump, air and chiller running? Leave them on.",
                "Primero mira un adulto: ¿funcionan la bomba, el aire y el enfriador? Déjelos encendidos."),
            LidAndBlanket,
            FloatBottle(tank),
            CoolSlowly(tank),
            OfStage(stage, LeaveThemBe, LeaveAlevins, NoFoodToday),
            ReadEveryHalfHour,
            RenewBottle(tank, waterC ?? tank.SetPointC),
            LookAtTheChiller,
        ],
        new("Does the chiller hum, is its grille warm, and what does its own display say?",
            "¿Zumba el enfriador, está tibia su rejilla y qué dice su propia pantalla?"),
        [Warnings.AdultAtThePlug, Warnings.SealedIce, Warnings.NobodyOpensTheChiller, Warnings.AgencyWins]);

    public static FirstAidScript WarmingFast(LifeStage stage, AidTank tank, double? waterC) => new(
        [
            new("An adult goes to the chiller now: display lit, fan turning, grille free? Pump and air stay on.",
                "Un adulto va ahora al enfriador: ¿pantalla encendida, ventilador girando, rejilla libre? Bomba y aire siguen encendidos."),
            LidAndBlanket,
            FloatBottle(tank),
            CoolSlowly(tank),
            OfStage(stage, LeaveThemBe, LeaveAlevins, NoFoodToday),
            ReadEveryHalfHour,
            RenewBottle(tank, waterC ?? tank.SetPointC),
            new("Sun on the glass? Put foil or card on that side.",
                "¿Le da el sol al vidrio? Ponga papel de aluminio o cartón de ese lado."),
        ],
        new("What changed since the last reading: chiller, sun, room heat, lid, or a change of water?",
            "¿Qué cambió desde la última lectura: enfriador, sol, calefacción, tapa o un cambio de agua?"),
        [Warnings.AdultAtThePlug, Warnings.SealedIce, Warnings.NobodyOpensTheChiller, Warnings.AgencyWins]);

    /// <summary>The class says that the chiller is off: resting, without power, or broken.</summary>
    public static FirstAidScript Chiller(LifeStage stage, AidTank tank, ChillerEvidence? e) =>
        e is { AllStopped: true } ? AirAid.PowerFirst(stage, tank)
        : e is { WaterC: { } water, SetPointC: var aim } && water < aim + tank.Limits[Limits.WarmingAbove] ? Resting(tank)
        : Broken(stage, tank, e?.WaterC);

    private static FirstAidScript Resting(AidTank tank)
    {
        var aim = AidFigures.Degrees(tank.SetPointC);
        return new(
            [
                new("An adult looks: is the display lit, and does it show a temperature?",
                    "Un adulto mira: ¿está encendida la pantalla y muestra una temperatura?"),
                new($"If it is, wait. A chiller rests while the water is at its set point, {aim.En}.",
                    $"Si es así, espere. Un enfriador descansa mientras el agua está a la temperatura fijada, {aim.Es}."),
                new("Read the water in half an hour and send me the number.",
                    "Lea la temperatura del agua en media hora y mándeme el número."),
                new("Warmer by then? Lid and blanket on, lights off, and call me.",
                    "¿Más caliente para entonces? Tapa y manta puestas, luces apagadas, y llámeme."),
            ],
            new("Is the display lit, and did the chiller start again within the half hour?",
                "¿Está encendida la pantalla, y volvió a arrancar el enfriador en esa media hora?"),
            [Warnings.AdultAtThePlug, Warnings.NobodyOpensTheChiller, Warnings.AgencyWins]);
    }

    private static FirstAidScript Broken(LifeStage stage, AidTank tank, double? waterC) => new(
        [
            new("An adult checks the chiller: plug fully in, display lit, fan turning? Pump and air stay on.",
                "Un adulto revisa el enfriador: ¿bien enchufado, pantalla encendida, ventilador girando? Bomba y aire siguen encendidos."),
            LidAndBlanket,
            FloatBottle(tank),
            CoolSlowly(tank),
            .. When(stage == LifeStage.Fry, NoFoodToday),
            new("Dust on the grille? An adult unplugs the chiller, brushes it off, pulls it a hand's width from the wall and plugs it in.",
                "¿Polvo en la rejilla? Un adulto desenchufa el enfriador, la cepilla, lo aparta un palmo de la pared y lo vuelve a enchufar."),
            ReadEveryHalfHour,
            RenewBottle(tank, waterC ?? tank.SetPointC),
        ],
        new("Is only the chiller off, or are pump and bubbles off too?",
            "¿Está apagado solo el enfriador, o también la bomba y las burbujas?"),
        [Warnings.AdultAtThePlug, Warnings.SealedIce, Warnings.NobodyOpensTheChiller, Warnings.AgencyWins]);
}

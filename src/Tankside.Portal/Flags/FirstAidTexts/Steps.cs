using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Science.Heat;
using Tankside.Science.Units;

namespace Tankside.Portal.Flags.FirstAidTexts;

/// <summary>Steps that more than one trouble needs. A step that goes near a plug names the adult in the same sentence.</summary>
public static class Steps
{
    /// <summary>Ice in a frozen bottle filled nine tenths full, kg a litre (judgement).</summary>
    private const double IceALitre = 0.9;

    public static readonly Bilingual LidAndBlanket = new(
        "Lid on, lights off, blinds down, a blanket round the glass (not over the chiller).",
        "Tapa puesta, luces apagadas, persianas abajo y una manta alrededor del vidrio (sin cubrir el enfriador).");

    public static readonly Bilingual NoFoodToday = new("No food today.", "Hoy no les dé comida.");

    public static readonly Bilingual ReadEveryHalfHour = new(
        "Read the water every half hour and send me the number.",
        "Lea la temperatura del agua cada media hora y mándeme el número.");

    public static readonly Bilingual LookAtTheChiller = new(
        "An adult looks at the chiller: display lit, fan turning, grille free of dust and a hand's width from the wall?",
        "Un adulto revisa el enfriador: ¿pantalla encendida, ventilador girando, rejilla sin polvo y a un palmo de la pared?");

    public static readonly Bilingual AirByCup = new(
        "Battery air in, if you have it. If not, pour tank water from a clean cup, hand-high, over and over.",
        "Ponga aire con pilas si tiene. Si no, vierta agua del tanque con un vaso limpio desde un palmo de alto, una y otra vez.");

    public static readonly Bilingual ResetOnce = new(
        "An adult with dry hands resets the outlet once. If it trips again, leave it off.",
        "Un adulto con las manos secas reinicia el tomacorriente una sola vez. Si se dispara otra vez, déjelo apagado.");

    public static Bilingual[] When(bool so, Bilingual step) => so ? [step] : [];

    public static Bilingual OfStage(LifeStage stage, Bilingual egg, Bilingual alevin, Bilingual fry) => stage switch
    {
        LifeStage.Egg => egg,
        LifeStage.Alevin => alevin,
        LifeStage.Fry => fry,
    };

    /// <summary>Water that reaches those who cannot swim to it.</summary>
    public static Bilingual StirBeside(LifeStage stage) => stage == LifeStage.Egg
        ? new(
            "Stir gently beside the eggs with a clean spoon, every few minutes: fresh water must reach them.",
            "Mueva el agua con suavidad junto a los huevos con una cuchara limpia, cada pocos minutos: les debe llegar agua fresca.")
        : new(
            "Stir gently beside the alevins with a clean spoon, every few minutes: fresh water must reach them.",
            "Mueva el agua con suavidad junto a los alevines con una cuchara limpia, cada pocos minutos: les debe llegar agua fresca.");

    public static Bilingual CoolSlowly(AidTank tank)
    {
        var step = AidFigures.Step(tank.Limits[Limits.AidCooling]);
        return new(
            $"Cool slowly: no more than {step.En} an hour. Hold the cold, do not plunge.",
            $"Enfríe despacio: no más de {step.Es} por hora. Se trata de mantener el frío, no de bajarlo de golpe.");
    }

    public static Bilingual FloatBottle(AidTank tank)
    {
        var litres = AidFigures.Number(BottleLitres(tank), "0.#");
        return new(
            $"Float one sealed frozen {litres.En}-litre bottle in two bags. No loose ice.",
            $"Ponga a flotar una botella congelada de {litres.Es} L, cerrada y en dos bolsas. Nada de hielo suelto.");
    }

    /// <summary>How often a bottle is renewed so that the water stays where it is, from the tank's own heat balance.</summary>
    public static Bilingual RenewBottle(AidTank tank, double holdC)
    {
        var litres = new Litres(tank.Litres);
        var flow = Warming.HeatFlowPerKelvin(litres, Warming.TimeConstant(litres, tank.Jacket).MidHours);
        var settles = Warming.SettlesAt(new Celsius(tank.RoomC), litres, tank.Jacket);
        var kilograms = Warming.IceKgPerHour(flow, settles, new Celsius(Math.Max(0, holdC)));
        var minutes = kilograms > 0 ? 60 * BottleLitres(tank) * IceALitre / kilograms : double.PositiveInfinity;
        return minutes > 12 * 60
            ? new("Change the bottle when it has melted.", "Cambie la botella cuando se haya derretido.")
            : Renew(kilograms, minutes);
    }

    private static Bilingual Renew(double kilogramsAnHour, double minutes)
    {
        var ice = AidFigures.Number(kilogramsAnHour, "0.0");
        var (every, cada) = minutes < 90
            ? ($"{Math.Max(10, 10 * Math.Round(minutes / 10)):0} minutes", $"{Math.Max(10, 10 * Math.Round(minutes / 10)):0} minutos")
            : ($"{Math.Round(minutes / 60):0} hours", $"{Math.Round(minutes / 60):0} horas");
        return new(
            $"Have more in the freezer: holding this tank takes about {ice.En} kg of ice an hour, a new bottle about every {every}.",
            $"Tenga más en el congelador: mantener este tanque pide unos {ice.Es} kg de hielo por hora, una botella nueva cada {cada} más o menos.");
    }

    /// <summary>A small tank is chilled too fast by a big bottle.</summary>
    private static double BottleLitres(AidTank tank) => tank.Litres < tank.Limits[Limits.AidSmallTank] ? 0.5 : 2;
}

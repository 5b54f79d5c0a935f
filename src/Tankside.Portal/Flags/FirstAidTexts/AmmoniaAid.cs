using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Science.Units;
using Tankside.Science.Water;
using static Tankside.Portal.Flags.FirstAidTexts.Steps;

namespace Tankside.Portal.Flags.FirstAidTexts;

/// <summary>Ammonia: the pH decides whether a change of water helps or kills, so what it would do is worked out for this tank.</summary>
public static class AmmoniaAid
{
    private static readonly Bilingual AskNext = new(
        "What are the pH and the water temperature now, and is the test kit in date?",
        "¿Cuáles son ahora el pH y la temperatura del agua, y no ha vencido el kit de prueba?");

    public static FirstAidScript Of(LifeStage stage, AidTank tank, AmmoniaEvidence? e) => new(
        [
            .. e is not { Ph: { } ph } ? NoPh(stage)
                : ph < tank.Limits[Limits.AidAcidPh] ? Acid(stage, tank, e, ph)
                : Usual(stage, tank, e, ph),
            LeaveTheFilter,
        ],
        AskNext,
        [Warnings.AdultAtThePlug, Warnings.BigChange(tank), Warnings.NoRemedies, Warnings.AgencyWins]);

    /// <summary>Cloudy water: what rots in it goes first, and the tests decide about a change of water.</summary>
    public static FirstAidScript Cloudy(LifeStage stage, AidTank tank) => new(
        [
            new("Test ammonia and pH now and tell me both, before anybody changes water.",
                "Mida ahora el amoníaco y el pH y dígame los dos, antes de que nadie cambie agua."),
            LessWaste(stage),
            .. When(stage == LifeStage.Fry, new Bilingual("Skip two feeds. After that only what is gone in five minutes.",
                "Salte dos comidas. Después, solo lo que se acabe en cinco minutos.")),
            .. When(stage == LifeStage.Alevin, new Bilingual("Foam after the hatch is usual: skim it off with a clean cup.",
                "La espuma después de nacer es normal: quítela con un vaso limpio.")),
            LeaveTheFilter,
        ],
        new("What are ammonia and pH, and does the water smell?",
            "¿Cuáles son el amoníaco y el pH, y huele el agua?"),
        [Warnings.AdultAtThePlug, Warnings.BigChange(tank), Warnings.NoRemedies, Warnings.WashHands, Warnings.AgencyWins]);

    private static readonly Bilingual LeaveTheFilter = new(
        "Pump and air stay on. Do not wash the filter pads.",
        "La bomba y el aire siguen encendidos. No lave las esponjas del filtro.");

    private static Bilingual[] NoPh(LifeStage stage) =>
    [
        new("Test the pH now and tell me, before anybody changes water.",
            "Mida el pH ahora y dígamelo, antes de que nadie cambie agua."),
        LessWaste(stage),
        new("Test the ammonia again with a clean, dry tube. Is the kit in date?",
            "Mida otra vez el amoníaco con un tubo limpio y seco. ¿No ha vencido el kit?"),
    ];

    private static Bilingual[] Acid(LifeStage stage, AidTank tank, AmmoniaEvidence e, double ph)
    {
        var share = tank.Limits[Limits.AidChangeAcid];
        var (percent, amount, at) = (AidFigures.Percent(share), AidFigures.Volume(tank.Litres * share), AidFigures.Number(ph, "0.0#"));
        return
        [
            new($"Change only {percent.En} of the water, {amount.En}, treated and as cold as the tank. More tomorrow.",
                $"Cambie solo el {percent.Es} del agua, {amount.Es}, tratada y tan fría como el tanque. Mañana más."),
            LessWaste(stage),
            new($"Not more at once: the water is acid (pH {at.En}).",
                $"No más de una vez: el agua es ácida (pH {at.Es})."),
            HalfAtOnce(tank, e, ph),
            new("Test pH and ammonia before each change and send me both.",
                "Mida el pH y el amoníaco antes de cada cambio y mándeme los dos."),
        ];
    }

    private static Bilingual[] Usual(LifeStage stage, AidTank tank, AmmoniaEvidence e, double ph)
    {
        var (share, small) = (tank.Limits[Limits.AidChange], AidFigures.Percent(tank.Limits[Limits.AidChangeAcid]));
        var (percent, amount, at) = (AidFigures.Percent(share), AidFigures.Volume(tank.Litres * share), AidFigures.Number(ph, "0.0#"));
        return
        [
            new($"Test the pH of the new water. Higher than the tank's {at.En}? Then change only {small.En}.",
                $"Mida el pH del agua nueva. ¿Más alto que el {at.Es} del tanque? Cambie solo el {small.Es}."),
            new($"If not, change {percent.En}, {amount.En}, treated and as cold as the tank. Again tomorrow.",
                $"Si no, cambie el {percent.Es}, {amount.Es}, tratada y tan fría como el tanque. Otra vez mañana."),
            LessWaste(stage),
            .. Changes(share, e),
            new("Test pH and ammonia before each change and send me both.",
                "Mida el pH y el amoníaco antes de cada cambio y mándeme los dos."),
        ];
    }

    private static Bilingual LessWaste(LifeStage stage) => OfStage(
        stage,
        new("Take out every dead egg with a baster: they feed the ammonia.",
            "Saque todos los huevos muertos con una pera de succión: de ahí viene el amoníaco."),
        new("Take out dead alevins and empty shells with a baster: they feed the ammonia.",
            "Saque los alevines muertos y las cáscaras con una pera de succión: de ahí viene el amoníaco."),
        new("No food today. Siphon old food off the bottom.",
            "Hoy no les dé comida. Aspire del fondo la comida vieja."));

    /// <summary>What half a tank of alkaline tap water would set free, at worst: the mixed water as alkaline as the tap's.</summary>
    private static Bilingual HalfAtOnce(AidTank tank, AmmoniaEvidence e, double ph)
    {
        var tap = tank.Limits[Limits.AmmoniaDoubtPh];
        var now = AidFigures.Number(Poison(e.TotalMgL, ph, e.WaterC), "0.000");
        var then = AidFigures.Number(Poison(e.TotalMgL / 2, tap, e.WaterC), "0.000");
        var (tapPh, act) = (AidFigures.Number(tap, "0.#"), AidFigures.Number(tank.Limits[Limits.AmmoniaAct], "0.000"));
        return new(
            $"Why: half at once with tap water of pH {tapPh.En} could take the poisonous part from {now.En} to {then.En} mg/L; harm begins near {act.En}.",
            $"Por qué: la mitad de una vez con agua de la llave de pH {tapPh.Es} podría llevar la parte venenosa de {now.Es} a {then.Es} mg/L; el daño empieza cerca de {act.Es}.");
    }

    private static Bilingual[] Changes(double share, AmmoniaEvidence e)
    {
        if (e.UnionizedN is not { } poison || poison <= e.Limit)
        {
            return [];
        }

        var count = (int)Math.Ceiling((Math.Log(e.Limit / poison) / Math.Log(1 - share)) - 1e-9);
        var (from, to) = (AidFigures.Number(poison, "0.000"), AidFigures.Number(e.Limit, "0.000"));
        return
        [
            new($"By reckoning {count} such change{(count == 1 ? "" : "s")}, one a day, bring the poisonous part from {from.En} under {to.En} mg/L if no more waste comes.",
                $"Según el cálculo, {(count == 1 ? "1 cambio así" : $"{count} cambios así, uno por día,")} {(count == 1 ? "baja" : "bajan")} la parte venenosa de {from.Es} a menos de {to.Es} mg/L si no se suman desechos."),
        ];
    }

    private static double Poison(double totalN, double ph, double waterC) =>
        Ammonia.UnionizedN(new MilligramsPerLitre(totalN), Math.Clamp(ph, 0, 14), new Celsius(Math.Clamp(waterC, 0, 40))).Value;
}

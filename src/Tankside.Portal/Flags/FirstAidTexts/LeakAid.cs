using Tankside.Hatchery.Eggs;
using static Tankside.Portal.Flags.FirstAidTexts.Steps;

namespace Tankside.Portal.Flags.FirstAidTexts;

/// <summary>Water on the floor: people first, then air for the fish, then the tank.</summary>
public static class LeakAid
{
    public static FirstAidScript Of(LifeStage stage) => new(
        [
            new("Everybody off the wet floor. If a cord or outlet is wet, no adult and no child touches it: the building's electrician or caretaker switches that circuit off.",
                "Todos fuera del piso mojado. Si un cable o tomacorriente está mojado, ningún adulto ni niño lo toca: el electricista o conserje del edificio corta ese circuito."),
            new("If all is dry at the outlet, an adult with dry hands and feet unplugs everything there.",
                "Si el tomacorriente está seco, un adulto con manos y pies secos desenchufa todo ahí."),
            new("An adult closes a valve or lifts a hose that drips above the water, and lays towels.",
                "Un adulto cierra la válvula o levanta por encima del agua la manguera que gotea, y pone toallas."),
            OfStage(
                stage,
                new("Does the level keep falling? Dip clean buckets full of tank water and move the egg basket into one, kept cold and dark.",
                    "¿Sigue bajando el nivel? Llene cubetas limpias con agua del tanque y pase la canasta de huevos a una, fría y a oscuras."),
                new("Does the level keep falling? Dip clean buckets full of tank water and move the basket of alevins into one, kept cold and dark.",
                    "¿Sigue bajando el nivel? Llene cubetas limpias con agua del tanque y pase la canasta de alevines a una, fría y a oscuras."),
                new("Does the level keep falling? Dip clean buckets full of tank water and net the fish over, few to a bucket, lid on.",
                    "¿Sigue bajando el nivel? Llene cubetas limpias con agua del tanque y pase los peces con la red, pocos por cubeta y tapadas.")),
            AirByCup,
            new("Do not lift or slide a tank with water in it: it can break, and it is too heavy.",
                "No levante ni deslice un tanque con agua: se puede romper y pesa demasiado."),
        ],
        new("Where does it come from: glass, hose or a spilled change of water? How fast does the level fall?",
            "¿De dónde sale: vidrio, manguera o agua derramada? ¿Qué tan rápido baja el nivel?"),
        [Warnings.AdultAtThePlug, Warnings.OnlyByPermit, Warnings.WashHands, Warnings.AgencyWins]);
}

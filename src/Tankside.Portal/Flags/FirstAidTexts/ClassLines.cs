using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;

namespace Tankside.Portal.Flags.FirstAidTexts;

/// <summary>One very short line for a class of eight-year-olds: tell your teacher, and what it is. Nothing is theirs to mend.</summary>
public static class ClassLines
{
    /// <summary>The longest that is said instead of our few words.</summary>
    public const int Longest = 60;

    /// <summary>A class need not worry about dates, tallies and silence.</summary>
    public static bool IsTold(FlagKind kind) =>
        kind is FlagKind.DieOff or FlagKind.Fungus || Dangers.Of(kind) is Danger.Heat or Danger.Cold or Danger.Air or Danger.Poison;

    /// <summary>Of the line only what it is may be a programme's own; whom to tell and what not to touch stays.</summary>
    public static Bilingual Of(FlagKind kind, OwnTexts texts)
    {
        var (what, not) = Parts(kind);
        return Line(texts.Find(AidTopics.Of(kind).ClassKey) is { } own ? new Bilingual(own.En, own.Es) : what, not);
    }

    /// <summary>What we say it is.</summary>
    public static Bilingual Ours(FlagKind kind) => Parts(kind).What;

    private static Bilingual Line(Bilingual what, Bilingual? not) => not is null
        ? new($"Tell your teacher: {what.En}.", $"Dile a tu maestra o maestro: {what.Es}.")
        : new($"Tell your teacher now: {what.En}. {not.En}", $"Dile ya a tu maestra o maestro: {what.Es}. {not.Es}");

    private static (Bilingual What, Bilingual? Not) Parts(FlagKind kind) => kind switch
    {
        FlagKind.Warm => Plug(new("the water is too warm", "el agua está muy caliente")),
        FlagKind.WarmingFast => Plug(new("the water is getting warm", "el agua se está calentando")),
        FlagKind.ChillerFault => Plug(new("the chiller may have stopped", "quizá se paró el enfriador")),
        FlagKind.IcedCoil => Plug(new("there may be ice on the coil", "quizá hay hielo en el tubo frío")),
        FlagKind.Cold => Plug(new("the water is too cold", "el agua está muy fría")),
        FlagKind.PumpFault => Plug(new("the fish need moving water", "los peces necesitan agua que se mueva")),
        FlagKind.LowOxygen => Plug(new("the fish need more air", "los peces necesitan más aire")),
        FlagKind.Ammonia => NoFood(new("the water test is too high", "la prueba del agua salió muy alta")),
        FlagKind.Nitrite => NoFood(new("the water test is too high", "la prueba del agua salió muy alta")),
        FlagKind.Chlorine => Nothing(new("there is chlorine in the water", "hay cloro en el agua")),
        FlagKind.Metals => Nothing(new("the tap water may be bad for fish", "la llave da agua mala para los peces")),
        FlagKind.PhSag => Nothing(new("the pH is going down", "el pH está bajando")),
        FlagKind.DieOff => Nothing(new("many have died", "se murieron muchos")),
        FlagKind.Fungus => Nothing(new("there is white fluff in the tank", "hay pelusa blanca en el tanque")),
        FlagKind.LateHatch => Look(new("the eggs are late", "los huevos tardan en nacer")),
        FlagKind.EarlyHatch => Look(new("the eggs are hatching early", "los huevos están naciendo antes")),
        FlagKind.FeedingNearBreak => Look(new("the fish will soon need food and a break is near", "los peces pronto van a comer y vienen días sin clase")),
        FlagKind.Silent => Look(new("nobody has read the tank for some days", "hace días que nadie lee el tanque")),
        FlagKind.Contradictory => Look(new("two answers do not fit together", "dos respuestas no van juntas")),
        FlagKind.StuckThermometer => Look(new("the thermometer always says the same", "el termómetro siempre dice lo mismo")),
        FlagKind.NotReady => Plug(new("the tank is not ready for eggs", "el tanque no está listo para los huevos")),
        FlagKind.Tally => Look(new("the count does not fit", "la cuenta no sale")),
        FlagKind.ReportLate => Look(new("a report is missing", "falta un informe")),
        FlagKind.SharedCause => Look(new("other classes have the same trouble", "otras clases tienen el mismo problema")),
    };

    private static (Bilingual, Bilingual?) Plug(Bilingual what) => (what, new("Do not touch any plug.", "No toques ningún enchufe."));

    private static (Bilingual, Bilingual?) NoFood(Bilingual what) => (what, new("Do not feed the fish.", "No les des comida a los peces."));

    private static (Bilingual, Bilingual?) Nothing(Bilingual what) => (what, new("Do not put anything in the water.", "No pongas nada en el agua."));

    private static (Bilingual, Bilingual?) Look(Bilingual what) => (what, null);
}

using Tankside.Hatchery.Flags;

namespace Tankside.Portal.Flags.FirstAidTexts;

/// <summary>What several tanks have in common, in one Spanish sentence.</summary>
public sealed partial class ReasonWordsSpanish
{
    /// <summary>More tanks than this are not named one by one.</summary>
    private const int MostNamed = 8;

    private static string Shared(SharedCauseEvidence e)
    {
        var more = e.Tanks.Count > MostNamed ? $" y {e.Tanks.Count - MostNamed} más" : "";
        return $"{e.Tanks.Count} de {e.Of} tanques {Sharing(e.By)} {e.Code} con problemas: {string.Join(", ", e.Tanks.Take(MostNamed).Select(OneOf))}{more}.";
    }

    private static string OneOf(SharedTank tank) => tank switch
    {
        { Dead: > 0, Kind: null or FlagKind.DieOff } => $"{tank.Code} ({tank.Dead} muertos)",
        { Kind: { } kind } => $"{tank.Code} ({KindNames.Of(kind).Es})",
        _ => $"{tank.Code} (muertos al llegar)",
    };

    /// <summary>"del lote", "con el agua de"; the code follows.</summary>
    public static string Sharing(SharedBy by) => by switch
    {
        SharedBy.Lot => "del lote",
        SharedBy.Run => "de la ruta de entrega",
        SharedBy.Area => "de la zona",
        SharedBy.Water => "con el agua de",
        SharedBy.ChillerBatch => "con enfriadores de la serie",
    };
}

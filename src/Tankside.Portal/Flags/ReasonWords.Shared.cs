using Tankside.Hatchery.Flags;

namespace Tankside.Portal.Flags;

/// <content>What several tanks have in common, in one sentence: which tanks, what stands there, and what to do first.</content>
public sealed partial class ReasonWords
{
    /// <summary>More tanks than this are not named one by one.</summary>
    private const int MostNamed = 8;

    /// <summary>"3 of 8 tanks of lot A lose too many: A1 30 dead, A2 28 dead and A4 die-off; …".</summary>
    private string Shared(SharedCauseEvidence e, DateTime at)
    {
        var some = $"{Number(e.Tanks.Count, "0")} of {Count(e.Of, "tank")} {Sharing(e.By)} {e.Code}";
        var what = e.By switch
        {
            SharedBy.Lot or SharedBy.Run => "lose too many",
            SharedBy.Water => "are in trouble",
            SharedBy.Area => $"went wrong together since {When(e.Since)}",
            SharedBy.ChillerBatch => "have chiller trouble",
        };
        var usual = e.Dead > 0 ? $" where about {Number(e.Expected / e.Tanks.Count, "0.#")} each would be usual, by {When(at)}" : $", by {When(at)}";
        var also = e.Also.Count == 0 ? "" : $"; the same tanks share {List(e.Also.Select(a => $"{Naming(a.By)} {a.Code}"))}";
        return $"{some} {what}: {Named(e)}{(e.By == SharedBy.Area ? "" : usual)}{also}; {FirstStep(e)}.";
    }

    /// <summary>What the tanks have in common, e.g. "run R1".</summary>
    public static string Naming(SharedBy by) => by switch
    {
        SharedBy.Lot => "lot",
        SharedBy.Run => "delivery run",
        SharedBy.Area => "area",
        SharedBy.Water => "the water of",
        SharedBy.ChillerBatch => "chiller batch",
    };

    private static string Sharing(SharedBy by) => by switch
    {
        SharedBy.Lot or SharedBy.Run => $"of {Naming(by)}",
        SharedBy.Area => "in area",
        SharedBy.Water => "on the water of",
        SharedBy.ChillerBatch => "with chillers of batch",
    };

    private static string Named(SharedCauseEvidence e)
    {
        var named = e.Tanks.Take(MostNamed).Select(OneOf).ToList();
        return e.Tanks.Count > MostNamed ? $"{string.Join(", ", named)} and {e.Tanks.Count - MostNamed} more" : List(named);
    }

    private static string OneOf(SharedTank tank) => tank switch
    {
        { Dead: > 0, Kind: null or FlagKind.DieOff } => $"{tank.Code} {Number(tank.Dead, "0")} dead",
        { Kind: { } kind } => $"{tank.Code} {FlagWords.Of(kind)}",
        _ => $"{tank.Code} dead on arrival",
    };

    private static string FirstStep(SharedCauseEvidence e)
    {
        var others = e.Others.Count switch
        {
            0 => "",
            1 => $" and ask {e.Others[0]}",
            var n => $" and ask the other {Number(n, "0")}",
        };
        return e.By switch
        {
            SharedBy.Lot => $"tell the agency{others}",
            SharedBy.Run => $"ask the driver about the way{others}",
            SharedBy.Water => $"no water change before a total-chlorine test reads zero{others}",
            SharedBy.Area => $"ask for a power cut first{others}",
            SharedBy.ChillerBatch => $"have spares of another batch ready{others}",
        };
    }

    private static string List(IEnumerable<string> words) => words.ToList() switch
    {
        [] => "",
        [var one] => one,
        [.. var first, var last] => $"{string.Join(", ", first)} and {last}",
    };
}

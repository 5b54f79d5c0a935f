namespace Tankside.Hatchery.Eggs.Runs;

/// <summary>What somebody on the way says of a pack.</summary>
public enum TickDeed
{
    /// <summary>In this driver's car.</summary>
    Loaded,

    /// <summary>Handed over at the tank.</summary>
    HandedOver,

    /// <summary>Left at the holding tank.</summary>
    ToHolding,

    /// <summary>Back at the depot.</summary>
    BroughtBack,

    /// <summary>What was said of where this pack ended, up to now, was a slip.</summary>
    TakenBack,
}

/// <summary>Where a pack is.</summary>
public enum PackPlace
{
    AtTheDepot,
    InACar,
    AtTheTank,
    AtTheHoldingTank,
    BroughtBack,
}

/// <summary>
/// One tick, as a phone sent it; only ever added. Its id was made on the phone, so a tick sent again is the same tick.
/// </summary>
public sealed class RunTick
{
    public Guid Id { get; init; }

    public Guid RunId { get; init; }

    public Guid StopId { get; init; }

    /// <summary>The driver whose sheet it came from; null when a coordinator or an arrival said it.</summary>
    public Guid? DriverId { get; init; }

    public TickDeed Deed { get; init; }

    /// <summary>When it happened, UTC: the arrival less how long it had waited on the phone.</summary>
    public DateTime At { get; init; }

    public DateTime ReceivedAt { get; init; }
}

/// <param name="Pack">The stop, which is the pack: one tank, one pack.</param>
/// <param name="Deciding">The tick that says so; null at the depot.</param>
/// <param name="Besides">Ticks that say an end too and do not count: the second of two phones.</param>
public sealed record PackAccount(Guid Pack, int Eggs, PackPlace Place, RunTick? Deciding, IReadOnlyList<RunTick> Besides);

/// <summary>
/// Who has which eggs, from the ticks alone. It is a function of the set of ticks: their order of arrival and how often each came change nothing,
/// so two phones without a network, ticking the same stop, agree as soon as both have sent. The earliest end counts; a later one stands beside it.
/// </summary>
public static class Custody
{
    public static PackAccount Of(Guid pack, int eggs, IEnumerable<RunTick> ticks)
    {
        var own = ticks.Where(t => t.StopId == pack).DistinctBy(t => t.Id).OrderBy(t => t.At).ThenBy(t => t.Id).ToList();
        var takenBack = own.LastOrDefault(t => t.Deed == TickDeed.TakenBack)?.At;
        var ends = own.Where(t => PlaceOf(t.Deed) is not null && (takenBack is null || t.At > takenBack)).ToList();
        if (ends.Count > 0)
        {
            return new PackAccount(pack, eggs, PlaceOf(ends[0].Deed)!.Value, ends[0], ends[1..]);
        }

        return own.LastOrDefault(t => t.Deed == TickDeed.Loaded) is { } loaded
            ? new PackAccount(pack, eggs, PackPlace.InACar, loaded, [])
            : new PackAccount(pack, eggs, PackPlace.AtTheDepot, null, []);
    }

    /// <summary>Eggs by where they are; every place is in it, and they add up to all packs.</summary>
    public static IReadOnlyDictionary<PackPlace, int> Sums(IEnumerable<PackAccount> packs)
    {
        var all = packs.ToList();
        return Enum.GetValues<PackPlace>().ToDictionary(p => p, p => all.Where(a => a.Place == p).Sum(a => a.Eggs));
    }

    private static PackPlace? PlaceOf(TickDeed deed) => deed switch
    {
        TickDeed.HandedOver => PackPlace.AtTheTank,
        TickDeed.ToHolding => PackPlace.AtTheHoldingTank,
        TickDeed.BroughtBack => PackPlace.BroughtBack,
        _ => null,
    };
}

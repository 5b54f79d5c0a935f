namespace Tankside.Hatchery.Eggs;

/// <summary>Why a tank is not promised so many eggs, or is with a word of warning.</summary>
public enum AllotmentRefusal
{
    /// <summary>Fewer than none.</summary>
    Negative,

    /// <summary>Eggs but no lot.</summary>
    NoLot,

    /// <summary>The tank is closed.</summary>
    Closed,

    /// <summary>Eggs of a lot have come to it already: one lot a tank, so that patterns can be seen.</summary>
    OtherLotIsIn,

    /// <summary>The day is one on which its school is shut.</summary>
    SchoolIsShut,
}

/// <summary>Which promises may be made to a tank.</summary>
public static class AllotmentRules
{
    public static IEnumerable<AllotmentRefusal> Check(int eggs, Guid? lot, IReadOnlyCollection<Guid> lotsReceived, bool closed, bool? schoolDay)
    {
        if (eggs < 0)
        {
            yield return AllotmentRefusal.Negative;
        }

        if (eggs > 0 && lot is null)
        {
            yield return AllotmentRefusal.NoLot;
        }

        if (closed && eggs > 0)
        {
            yield return AllotmentRefusal.Closed;
        }

        if (lot is { } asked && lotsReceived.Any(received => received != asked))
        {
            yield return AllotmentRefusal.OtherLotIsIn;
        }

        if (eggs > 0 && schoolDay == false)
        {
            yield return AllotmentRefusal.SchoolIsShut;
        }
    }

    /// <summary>Eggs that a tank has room for when all are to stay until they are fingerlings.</summary>
    /// <param name="eggsPerLitre">The programme's setting.</param>
    public static int Capacity(double litres, double eggsPerLitre) => (int)Math.Floor(litres * eggsPerLitre);

    /// <summary>The order for what is allotted: the reserve on top, rounded up to the hatchery's pack.</summary>
    public static int Order(int allotted, double reserveShare, int pack) =>
        (int)(Math.Ceiling(Math.Ceiling(allotted * (1 + reserveShare) - 1e-9) / pack) * pack);
}

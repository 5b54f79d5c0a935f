using Tankside.Hatchery.Readings;

namespace Tankside.Storage.Readings;

/// <summary>
/// What the rules look back on of one tank's local day, in one row: a judgement of ten thousand tanks by the clock would otherwise read
/// every reading of three weeks again. Kept for as long as the rules look back, and rebuilt from the readings like the day's summary.
/// </summary>
public sealed class DayFacts
{
    public Guid TankId { get; init; }

    public DateOnly Day { get; init; }

    /// <summary>The facts as <see cref="FactPack"/> writes them; at least one.</summary>
    public required byte[] Packed { get; set; }

    /// <summary>Of the day's readings that count, ascending by time; null of none.</summary>
    public static DayFacts? Of(Guid tankId, DateOnly day, IReadOnlyList<ReadingFact> readings) => readings.Count == 0
        ? null
        : new DayFacts { TankId = tankId, Day = day, Packed = FactPack.Write(HourlyFacts.Of(readings)) };
}

using System.Text;
using Tankside.Hatchery.Readings;

namespace Tankside.Storage.Readings;

/// <summary>Days of one tank as bytes, exactly: a day of a logger takes some twenty, as a row nearly two hundred.</summary>
public static class DayPack
{
    /// <summary>The first byte of every pack. With another one the migration that brings it empties the table; the judge fills it again.</summary>
    private const byte Version = 1;

    /// <summary>Of a degree or an hour, as a day's numbers are rounded: what was read, its mean, and squared gaps.</summary>
    private const double Hundredths = 1e2, OfMeans = 1e4, OfGaps = 1e6;

    /// <param name="days">Of one tank, in any order.</param>
    public static byte[] Write(IReadOnlyList<TankDay> days)
    {
        using var bytes = new MemoryStream(24 * (days.Count + 1));
        using var to = new BinaryWriter(bytes, Encoding.UTF8, leaveOpen: true);
        to.Write(Version);
        to.Write7BitEncodedInt(days.Count);
        // A logger's days are much like each other: what is as a day later takes a byte.
        var (before, expected, lasts) = (0, 0L, 0L);
        foreach (var day in days)
        {
            to.WriteCount(day.Day.DayNumber - before);
            expected += (day.Day.DayNumber - before) * TimeSpan.TicksPerDay;
            to.WriteTicks(day.FirstAt.Ticks - expected);
            to.WriteTicks(day.LastAt.Ticks - day.FirstAt.Ticks - lasts);
            (before, expected, lasts) = (day.Day.DayNumber, day.FirstAt.Ticks, day.LastAt.Ticks - day.FirstAt.Ticks);
            to.WriteCount(day.Readings);
            to.WriteCount(day.WaterReadings);
            to.WriteNumber(day.SquaredGapHours, OfGaps);
            to.WriteNumber(day.MeanC, OfMeans);
            to.WriteNumber(day.MinC, Hundredths);
            to.WriteNumber(day.MaxC, Hundredths);
            var seen = day.Dead is not null || day.Hatched is not null || day.Swimming is not null;
            to.Write(seen);
            if (seen)
            {
                to.WriteCount(day.DeadEggs);
                to.WriteCount(day.DeadAlevins);
                to.WriteCount(day.DeadFry);
                to.WriteCount((int?)day.Hatched);
                to.WriteCount((int?)day.Swimming);
            }
        }

        to.Flush();
        return bytes.ToArray();
    }

    /// <exception cref="InvalidDataException">The bytes are no pack of this version.</exception>
    public static void Read(ReadOnlySpan<byte> packed, Guid tankId, List<TankDay> into)
    {
        var from = new PackReader(packed);
        if (from.Byte() != Version)
        {
            throw new InvalidDataException("These days were packed by another version; rebuild the running state.");
        }

        var (before, expected, lasts) = (0, 0L, 0L);
        for (var left = from.Varint(); left > 0; left--)
        {
            var number = before + from.Needed();
            if (number < 0 || number > DateOnly.MaxValue.DayNumber)
            {
                throw PackReader.Broken();
            }

            expected += (number - before) * TimeSpan.TicksPerDay;
            var first = from.Instant(expected);
            var last = from.Instant(first.Ticks + lasts);
            (before, expected, lasts) = (number, first.Ticks, last.Ticks - first.Ticks);
            // Written in the order in which they are packed: an initialiser runs from the top.
            into.Add(new TankDay
            {
                TankId = tankId,
                Day = DateOnly.FromDayNumber(number),
                FirstAt = first,
                LastAt = last,
                Readings = from.Needed(),
                WaterReadings = from.Needed(),
                SquaredGapHours = from.Number(OfGaps) ?? throw PackReader.Broken(),
                MeanC = from.Number(OfMeans),
                MinC = from.Number(Hundredths),
                MaxC = from.Number(Hundredths),
            });
            if (from.Byte() != 0)
            {
                var day = into[^1];
                (day.DeadEggs, day.DeadAlevins, day.DeadFry) = (from.Count(), from.Count(), from.Count());
                (day.Hatched, day.Swimming) = ((Share?)from.Count(), (Share?)from.Count());
            }
        }
    }
}

using System.Text;
using Tankside.Hatchery.Readings;

namespace Tankside.Storage.Readings;

/// <summary>
/// Facts as bytes, exactly: a reading of a logger takes about thirteen, as a row it takes two hundred. What is absent takes no place, and
/// a number of at most two decimals, as nearly all are, takes two or three bytes.
/// </summary>
public static class FactPack
{
    /// <summary>The first byte of every pack; another one is of another version, and is rebuilt from the readings rather than guessed at.</summary>
    private const byte Version = 1;

    /// <summary>Bits of a fact's first byte.</summary>
    private const int ByClass = 1, Received = 2, Words = 4, Counted = 8, Tested = 16;

    internal const double Hundredths = 100;

    /// <summary>Packs facts of any times; each is kept to the tick.</summary>
    public static byte[] Write(IReadOnlyList<ReadingFact> facts)
    {
        using var bytes = new MemoryStream(16 * (facts.Count + 1));
        using var to = new BinaryWriter(bytes, Encoding.UTF8, leaveOpen: true);
        to.Write(Version);
        to.Write7BitEncodedInt(facts.Count);
        var before = 0L;
        foreach (var fact in facts)
        {
            Write(to, fact, before);
            before = fact.At.Ticks;
        }

        to.Flush();
        return bytes.ToArray();
    }

    /// <summary>Observations that were read before. A logger says much the same every hour, and what is equal need not be made again.</summary>
    public sealed class Alike
    {
        private readonly Observation?[] kept = new Observation?[64];
        private readonly int[] said = new int[64];

        /// <summary>An observation of nothing but these; <paramref name="words"/> as they are packed.</summary>
        internal Observation Of(double? water, double? room, int words)
        {
            var place = HashCode.Combine(water, room, words) & 63;
            if (kept[place] is { } one && said[place] == words && Same(one.WaterC, water) && Same(one.RoomC, room))
            {
                return one;
            }

            said[place] = words;
            return kept[place] = Seen(water, room, words);
        }

        /// <summary>To the last bit: a zero below zero is kept too.</summary>
        private static bool Same(double? one, double? other) =>
            one.HasValue == other.HasValue && BitConverter.DoubleToInt64Bits(one.GetValueOrDefault()) == BitConverter.DoubleToInt64Bits(other.GetValueOrDefault());
    }

    /// <summary>How many facts a pack says that it holds; 0 of what is no pack.</summary>
    public static int CountOf(ReadOnlySpan<byte> packed)
    {
        if (packed is not [Version, _, ..])
        {
            return 0;
        }

        // No fact takes less than a byte, so what says that it holds more is broken, and is told so when it is read.
        return (int)Math.Clamp(new PackReader(packed[1..]).Varint(), 0, packed.Length);
    }

    /// <summary>Reads the facts of a pack.</summary>
    /// <param name="alike">Of one tank or many, of one thread.</param>
    /// <exception cref="InvalidDataException">The bytes are no pack of this version.</exception>
    public static void Read(ReadOnlySpan<byte> packed, List<ReadingFact> into, Alike alike)
    {
        var from = new PackReader(packed);
        if (from.Byte() != Version)
        {
            throw new InvalidDataException("These facts were packed by another version; rebuild the running state.");
        }

        var before = 0L;
        var left = from.Varint();
        for (; left > 0; left--)
        {
            var fact = Read(ref from, before, alike);
            before = fact.At.Ticks;
            into.Add(fact);
        }
    }

    private static void Write(BinaryWriter to, ReadingFact fact, long before)
    {
        var seen = fact.Seen;
        var said = Said(seen);
        var counted = seen.DeadEggs is not null || seen.DeadAlevins is not null || seen.DeadFry is not null || seen.Hatched is not null || seen.Swimming is not null;
        var tested = seen.Ph is not null || seen.AmmoniaTotalMgL is not null || seen.NitriteMgL is not null || seen.OxygenMgL is not null
            || seen.ChlorineMgL is not null || seen.WaterChangedPercent is not null || seen.Note is not null;
        to.Write((byte)((fact.ByClass ? ByClass : 0) | (fact.ReceivedAt is null ? 0 : Received) | (said == 0 ? 0 : Words) | (counted ? Counted : 0) | (tested ? Tested : 0)));
        WriteTicks(to, fact.At.Ticks - before);
        if (fact.ReceivedAt is { } received)
        {
            WriteTicks(to, received.Ticks - fact.At.Ticks);
        }

        WriteNumber(to, seen.WaterC);
        WriteNumber(to, seen.RoomC);
        if (said != 0)
        {
            to.Write7BitEncodedInt(said);
        }

        if (counted)
        {
            WriteCount(to, seen.DeadEggs);
            WriteCount(to, seen.DeadAlevins);
            WriteCount(to, seen.DeadFry);
            WriteCount(to, (int?)seen.Hatched);
            WriteCount(to, (int?)seen.Swimming);
        }

        if (tested)
        {
            WriteNumber(to, seen.Ph);
            WriteNumber(to, seen.AmmoniaTotalMgL);
            WriteNumber(to, seen.NitriteMgL);
            WriteNumber(to, seen.OxygenMgL);
            WriteNumber(to, seen.ChlorineMgL);
            WriteNumber(to, seen.WaterChangedPercent);
            to.Write(seen.Note is not null);
            if (seen.Note is { } note)
            {
                to.Write(note);
            }
        }
    }

    private static ReadingFact Read(ref PackReader from, long before, Alike alike)
    {
        var has = from.Byte();
        var at = from.Instant(before);
        var received = (has & Received) == 0 ? (DateTime?)null : from.Instant(at.Ticks);
        var (water, room) = (from.Number(), from.Number());
        var said = (has & Words) == 0 ? 0 : (int)from.Varint();
        var counted = (has & Counted) != 0;
        var tested = (has & Tested) != 0;

        // Written in the order in which they are packed: an initialiser runs from the top.
        var seen = !counted && !tested ? alike.Of(water, room, said) : Seen(water, room, said) with
        {
            DeadEggs = counted ? from.Count() : null,
            DeadAlevins = counted ? from.Count() : null,
            DeadFry = counted ? from.Count() : null,
            Hatched = counted ? (Share?)from.Count() : null,
            Swimming = counted ? (Share?)from.Count() : null,
            Ph = tested ? from.Number() : null,
            AmmoniaTotalMgL = tested ? from.Number() : null,
            NitriteMgL = tested ? from.Number() : null,
            OxygenMgL = tested ? from.Number() : null,
            ChlorineMgL = tested ? from.Number() : null,
            WaterChangedPercent = tested ? from.Number() : null,
            Note = tested ? from.Text() : null,
        };
        return new ReadingFact(at, seen, (has & ByClass) != 0, received);
    }

    private static Observation Seen(double? water, double? room, int said) => new()
    {
        WaterC = water,
        RoomC = room,
        ChillerRunning = Word(said, 0),
        Moving = Word(said, 1),
        Bubbles = Word(said, 2),
        LevelOk = Word(said, 3),
        Clear = Word(said, 4),
        IceOnCoil = Word(said, 5),
        Fed = Word(said, 6),
        Fungus = Word(said, 7),
        Gasping = Word(said, 8),
        FeelsWarm = Word(said, 9),
        WaterOnFloor = Word(said, 10),
    };

    /// <summary>Two bits for each yes or no: 0 is absent.</summary>
    private static int Said(Observation seen) =>
        Bits(seen.ChillerRunning, 0) | Bits(seen.Moving, 1) | Bits(seen.Bubbles, 2) | Bits(seen.LevelOk, 3) | Bits(seen.Clear, 4)
        | Bits(seen.IceOnCoil, 5) | Bits(seen.Fed, 6) | Bits(seen.Fungus, 7) | Bits(seen.Gasping, 8) | Bits(seen.FeelsWarm, 9) | Bits(seen.WaterOnFloor, 10);

    private static int Bits(bool? word, int place) => (word switch { null => 0, false => 1, true => 2 }) << (2 * place);

    private static bool? Word(int said, int place) => ((said >> (2 * place)) & 3) switch { 0 => null, 1 => false, _ => true };

    /// <summary>Whole milliseconds, as nearly all times are, or ticks; the last bit says which.</summary>
    private static void WriteTicks(BinaryWriter to, long ticks)
    {
        var (milliseconds, rest) = Math.DivRem(ticks, TimeSpan.TicksPerMillisecond);
        to.Write7BitEncodedInt64(rest == 0 ? ZigZag(milliseconds) << 1 : (ZigZag(ticks) << 1) | 1);
    }

    /// <summary>0 is absent, 1 is followed by the number as it is, anything else is its hundredths.</summary>
    private static void WriteNumber(BinaryWriter to, double? value)
    {
        if (value is not { } number)
        {
            to.Write7BitEncodedInt(0);
            return;
        }

        var hundredths = Math.Round(number * Hundredths);
        if (Math.Abs(hundredths) < 1e8 && hundredths / Hundredths == number && (hundredths != 0 || !double.IsNegative(number)))
        {
            to.Write7BitEncodedInt64(ZigZag((long)hundredths) + 2);
            return;
        }

        to.Write7BitEncodedInt(1);
        to.Write(number);
    }

    private static void WriteCount(BinaryWriter to, int? count) => to.Write7BitEncodedInt64(count is { } c ? ZigZag(c) + 1 : 0);

    private static long ZigZag(long value) => (value << 1) ^ (value >> 63);
}

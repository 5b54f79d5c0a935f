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

    private const double Hundredths = 100;

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
            // Not the framework's own way to combine, which differs from start to start: two that share a place would do so on some days only.
            var mixed = (((Bits(water) * 31) + Bits(room)) * 31) + words;
            var place = (int)((ulong)(mixed * unchecked((long)0x9E3779B97F4A7C15)) >> 58);
            if (kept[place] is { } one && said[place] == words && Same(one.WaterC, water) && Same(one.RoomC, room))
            {
                return one;
            }

            said[place] = words;
            return kept[place] = Seen(water, room, words);
        }

        /// <summary>To the last bit: a zero below zero is kept too.</summary>
        private static bool Same(double? one, double? other) =>
            one.HasValue == other.HasValue && Bits(one) == Bits(other);

        private static long Bits(double? number) => BitConverter.DoubleToInt64Bits(number.GetValueOrDefault());
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
        to.WriteTicks(fact.At.Ticks - before);
        if (fact.ReceivedAt is { } received)
        {
            to.WriteTicks(received.Ticks - fact.At.Ticks);
        }

        to.WriteNumber(seen.WaterC, Hundredths);
        to.WriteNumber(seen.RoomC, Hundredths);
        if (said != 0)
        {
            to.Write7BitEncodedInt(said);
        }

        if (counted)
        {
            to.WriteCount(seen.DeadEggs);
            to.WriteCount(seen.DeadAlevins);
            to.WriteCount(seen.DeadFry);
            to.WriteCount((int?)seen.Hatched);
            to.WriteCount((int?)seen.Swimming);
        }

        if (tested)
        {
            to.WriteNumber(seen.Ph, Hundredths);
            to.WriteNumber(seen.AmmoniaTotalMgL, Hundredths);
            to.WriteNumber(seen.NitriteMgL, Hundredths);
            to.WriteNumber(seen.OxygenMgL, Hundredths);
            to.WriteNumber(seen.ChlorineMgL, Hundredths);
            to.WriteNumber(seen.WaterChangedPercent, Hundredths);
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
        var (water, room) = (from.Number(Hundredths), from.Number(Hundredths));
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
            Ph = tested ? from.Number(Hundredths) : null,
            AmmoniaTotalMgL = tested ? from.Number(Hundredths) : null,
            NitriteMgL = tested ? from.Number(Hundredths) : null,
            OxygenMgL = tested ? from.Number(Hundredths) : null,
            ChlorineMgL = tested ? from.Number(Hundredths) : null,
            WaterChangedPercent = tested ? from.Number(Hundredths) : null,
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
}

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

    /// <exception cref="InvalidDataException">The bytes are no pack of this version.</exception>
    public static void Read(byte[] packed, List<ReadingFact> into)
    {
        try
        {
            using var from = new BinaryReader(new MemoryStream(packed, writable: false), Encoding.UTF8);
            if (from.ReadByte() != Version)
            {
                throw new InvalidDataException("These facts were packed by another version; rebuild the running state.");
            }

            var before = 0L;
            for (var left = from.Read7BitEncodedInt(); left > 0; left--)
            {
                var fact = Read(from, before);
                before = fact.At.Ticks;
                into.Add(fact);
            }
        }
        catch (Exception e) when (e is EndOfStreamException or FormatException or ArgumentException)
        {
            throw new InvalidDataException("These facts are broken; rebuild the running state.", e);
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

    private static ReadingFact Read(BinaryReader from, long before)
    {
        var has = from.ReadByte();
        var at = new DateTime(before + ReadTicks(from), DateTimeKind.Utc);
        var received = (has & Received) == 0 ? (DateTime?)null : at.AddTicks(ReadTicks(from));
        var (water, room) = (ReadNumber(from), ReadNumber(from));
        var said = (has & Words) == 0 ? 0 : from.Read7BitEncodedInt();
        var seen = new Observation
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
        if ((has & Counted) != 0)
        {
            seen = seen with
            {
                DeadEggs = ReadCount(from),
                DeadAlevins = ReadCount(from),
                DeadFry = ReadCount(from),
                Hatched = (Share?)ReadCount(from),
                Swimming = (Share?)ReadCount(from),
            };
        }

        if ((has & Tested) != 0)
        {
            seen = seen with
            {
                Ph = ReadNumber(from),
                AmmoniaTotalMgL = ReadNumber(from),
                NitriteMgL = ReadNumber(from),
                OxygenMgL = ReadNumber(from),
                ChlorineMgL = ReadNumber(from),
                WaterChangedPercent = ReadNumber(from),
                Note = from.ReadBoolean() ? from.ReadString() : null,
            };
        }

        return new ReadingFact(at, seen, (has & ByClass) != 0, received);
    }

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

    private static long ReadTicks(BinaryReader from)
    {
        var written = from.Read7BitEncodedInt64();
        var value = ZagZig((long)((ulong)written >> 1));
        return (written & 1) == 0 ? value * TimeSpan.TicksPerMillisecond : value;
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

    private static double? ReadNumber(BinaryReader from) => from.Read7BitEncodedInt64() switch
    {
        0 => null,
        1 => from.ReadDouble(),
        var written => ZagZig(written - 2) / Hundredths,
    };

    private static void WriteCount(BinaryWriter to, int? count) => to.Write7BitEncodedInt64(count is { } c ? ZigZag(c) + 1 : 0);

    private static int? ReadCount(BinaryReader from) => from.Read7BitEncodedInt64() is var written and not 0 ? (int)ZagZig(written - 1) : null;

    private static long ZigZag(long value) => (value << 1) ^ (value >> 63);

    private static long ZagZig(long value) => (long)((ulong)value >> 1) ^ -(value & 1);
}

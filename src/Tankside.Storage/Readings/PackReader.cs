using System.Buffers.Binary;
using System.Text;

namespace Tankside.Storage.Readings;

/// <summary>Reads what <see cref="PackWriter"/> writes, value by value; what breaks off or cannot be is an <see cref="InvalidDataException"/>.</summary>
internal ref struct PackReader(ReadOnlySpan<byte> bytes)
{
    private readonly ReadOnlySpan<byte> bytes = bytes;
    private int at;

    public byte Byte() => at < bytes.Length ? bytes[at++] : throw Broken();

    /// <summary>Seven bits a byte, the low ones first; the high bit says that there is more.</summary>
    public long Varint()
    {
        var value = 0UL;
        for (var shift = 0; shift < 64; shift += 7)
        {
            var next = Byte();
            value |= (ulong)(next & 0x7f) << shift;
            if (next < 0x80)
            {
                return (long)value;
            }
        }

        throw Broken();
    }

    /// <summary>An instant, told by how far it lies from another, in ticks.</summary>
    public DateTime Instant(long from)
    {
        var written = Varint();
        var value = ZagZig((long)((ulong)written >> 1));
        var ticks = from + ((written & 1) == 0 ? value * TimeSpan.TicksPerMillisecond : value);
        return ticks >= 0 && ticks <= DateTime.MaxValue.Ticks ? new DateTime(ticks, DateTimeKind.Utc) : throw Broken();
    }

    /// <param name="parts">Of a whole, as it was written.</param>
    public double? Number(double parts) => Varint() switch
    {
        0 => null,
        1 => BinaryPrimitives.ReadDoubleLittleEndian(Take(sizeof(double))),
        var written => ZagZig(written - 2) / parts,
    };

    public int? Count() => Varint() is var written and not 0 ? (int)ZagZig(written - 1) : null;

    public int Needed() => Count() ?? throw Broken();

    public string? Text() => Byte() == 0 ? null : Encoding.UTF8.GetString(Take(Varint()));

    private ReadOnlySpan<byte> Take(long length)
    {
        if (length < 0 || length > bytes.Length - at)
        {
            throw Broken();
        }

        var taken = bytes.Slice(at, (int)length);
        at += (int)length;
        return taken;
    }

    private static long ZagZig(long value) => (long)((ulong)value >> 1) ^ -(value & 1);

    public static InvalidDataException Broken() => new("What is packed here is broken; rebuild the running state.");
}

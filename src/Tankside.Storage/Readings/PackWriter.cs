namespace Tankside.Storage.Readings;

/// <summary>Writes what <see cref="PackReader"/> reads, value by value.</summary>
internal static class PackWriter
{
    /// <summary>Whole milliseconds, as nearly all times are, or ticks; the last bit says which.</summary>
    public static void WriteTicks(this BinaryWriter to, long ticks)
    {
        var (milliseconds, rest) = Math.DivRem(ticks, TimeSpan.TicksPerMillisecond);
        to.Write7BitEncodedInt64(rest == 0 ? ZigZag(milliseconds) << 1 : (ZigZag(ticks) << 1) | 1);
    }

    /// <summary>0 is absent, 1 is followed by the number as it is, anything else is how many parts it has.</summary>
    /// <param name="parts">Of a whole: most numbers here are a round number of hundredths, or of smaller ones.</param>
    public static void WriteNumber(this BinaryWriter to, double? value, double parts)
    {
        if (value is not { } number)
        {
            to.Write7BitEncodedInt(0);
            return;
        }

        var count = Math.Round(number * parts);
        if (Math.Abs(count) < 1e12 && count / parts == number && (count != 0 || !double.IsNegative(number)))
        {
            to.Write7BitEncodedInt64(ZigZag((long)count) + 2);
            return;
        }

        to.Write7BitEncodedInt(1);
        to.Write(number);
    }

    public static void WriteCount(this BinaryWriter to, int? count) => to.Write7BitEncodedInt64(count is { } c ? ZigZag(c) + 1 : 0);

    private static long ZigZag(long value) => (value << 1) ^ (value >> 63);
}

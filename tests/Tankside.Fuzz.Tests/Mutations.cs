using System.Text;

namespace Tankside.Fuzz.Tests;

/// <summary>Makes an input of others: a few of many small breakages, one after the other.</summary>
public static class Mutations
{
    /// <summary>What has broken parsers before: signs, numbers and words that one reader takes and the next does not.</summary>
    public static IReadOnlyList<string> Odd { get; } =
    [
        "\0", "\uFFFE", "\uFFFF", "\uFEFF", "\uFFFD", "\u0085", "\u2028", "\u200B", "\u202E", "\u00A0", "\u0001", "\u001b", "\u007f", "e\u0301", "\u0301", "😀", "👩‍👩‍👧", "ſ", "İ", "ı", "K", "ß", "Å",
        "٣", "٠٣/٠٤/٢٠٢٧", "१२", "１２", "²", "Ⅷ", "½", "−", "–", "１,５", "٫", "=1+1", "+1", "-1", "@x", "=cmd|' /C calc'!A0", "\"", "\"\"", "'", "`", "{", "}", "{{", "}}", "{name}", "[", "]", "<", ">", "&",
        "&amp;", "]]>", "%00", "%", "%s", "%2", "\\", "\\u0000", "\\ud800", "\\udc00", "/", "//", "..", "../../", "|", ";", ",", ":", "\t", "\r", "\n", "\r\n", " ", "  ", "-0", "0", "00", "1", "1.", ".5", "1e5",
        "1e308", "1e400", "-1e400", "5e-324", "NaN", "Infinity", "∞", "2147483647", "2147483648", "-2147483649", "9223372036854775808", "99999999999999999999999999", "0.000000000000000000000001", "1,000", "1,000,000",
        "1.000,5", "0x10", "1_000", "24:00", "12:60", "2027-02-29", "0000-00-00", "9999-12-31", "0001-01-01", "2027-02-03", "31/02/2027", "null", "true", "false", "undefined", "NULL", "ñ", "東京", "שלום", "مرحبا",
    ];

    public static byte[] Of(Dice dice, byte[] seed, IReadOnlyList<byte[]> others, IReadOnlyList<string> words, int longest)
    {
        var bytes = seed;
        for (var times = 1 + dice.Below(1 << dice.Below(5)); times > 0; times--)
        {
            bytes = Once(dice, bytes, others, words, longest);
        }

        return bytes.Length > longest ? bytes[..longest] : bytes;
    }

    private static byte[] Once(Dice dice, byte[] bytes, IReadOnlyList<byte[]> others, IReadOnlyList<string> words, int longest)
    {
        var at = dice.Below(bytes.Length + 1);
        var end = Math.Min(bytes.Length, at + 1 + dice.Below(dice.OneIn(4) ? bytes.Length + 1 : 12));
        switch (dice.Below(12))
        {
            case 0 or 1 when at < bytes.Length:
                var flipped = bytes.ToArray();
                flipped[at] ^= (byte)(1 << dice.Below(8));
                return flipped;
            case 2 when at < bytes.Length:
                var other = bytes.ToArray();
                other[at] = dice.Of([(byte)0, (byte)0x7F, (byte)0x80, (byte)0xFF, (byte)'"', (byte)',', (byte)'\n', dice.Byte()]);
                return other;
            case 3:
                return [.. bytes.AsSpan(0, at), .. bytes.AsSpan(end)];
            case 4:
                return bytes[..at];
            case 5:
                return Repeated(dice, bytes, at, end, longest);
            case 6:
                var donor = dice.Of(others);
                var from = dice.Below(donor.Length + 1);
                return [.. bytes.AsSpan(0, at), .. donor.AsSpan(from, dice.Below(donor.Length - from + 1)), .. bytes.AsSpan(dice.OneIn(2) ? at : end)];
            case 7 when at + 1 < bytes.Length:
                var swapped = bytes.ToArray();
                (swapped[at], swapped[dice.Below(bytes.Length)]) = (swapped[dice.Below(bytes.Length)], swapped[at]);
                return swapped;
            case 8:
                return NumberReplaced(dice, bytes, at);
            default:
                var word = Encoding.UTF8.GetBytes(words.Count > 0 && dice.OneIn(2) ? dice.Of(words) : dice.Of(Odd));
                return [.. bytes.AsSpan(0, at), .. word, .. bytes.AsSpan(dice.OneIn(2) ? at : end)];
        }
    }

    /// <summary>A part again and again: what costs more than its length shows here.</summary>
    private static byte[] Repeated(Dice dice, byte[] bytes, int at, int end, int longest)
    {
        var part = bytes.AsSpan(at, end - at);
        var room = Math.Max(0, (longest - bytes.Length) / Math.Max(1, part.Length));
        var times = Math.Min(room, dice.OneIn(6) ? room : dice.Below(1 << dice.Below(10)));
        var repeated = new byte[bytes.Length + (part.Length * times)];
        bytes.AsSpan(0, end).CopyTo(repeated);
        for (var i = 0; i < times; i++)
        {
            part.CopyTo(repeated.AsSpan(end + (i * part.Length)));
        }

        bytes.AsSpan(end).CopyTo(repeated.AsSpan(end + (times * part.Length)));
        return repeated;
    }

    private static byte[] NumberReplaced(Dice dice, byte[] bytes, int from)
    {
        var at = Array.FindIndex(bytes, Math.Min(from, bytes.Length), b => b is >= (byte)'0' and <= (byte)'9');
        if (at < 0)
        {
            return [.. bytes, .. Encoding.UTF8.GetBytes(dice.Of(Odd))];
        }

        var end = at;
        while (end < bytes.Length && bytes[end] is (>= (byte)'0' and <= (byte)'9') or (byte)'.')
        {
            end++;
        }

        return [.. bytes.AsSpan(0, at), .. Encoding.UTF8.GetBytes(dice.Of(Odd)), .. bytes.AsSpan(end)];
    }
}

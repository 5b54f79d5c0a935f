using System.Buffers.Binary;
using System.Globalization;
using System.Security.Cryptography;

namespace Tankside.Portal.Tests.Accounts;

/// <summary>The device of a person: it makes codes from a secret and the clock (RFC 6238, with the HMAC-SHA-1 of RFC 4226).</summary>
public static class TimeCodes
{
    private const string Letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZ234567";

    /// <summary>The code of now. The framework checks by the real clock, so the device has the real time too.</summary>
    /// <param name="steps">Half minutes from now.</param>
    public static string Of(string secret, int steps = 0) => At(Bytes(secret), (TimeProvider.System.GetUtcNow().ToUnixTimeSeconds() / 30) + steps, 6);

    public static string At(byte[] key, long step, int digits)
    {
        var counter = new byte[8];
        BinaryPrimitives.WriteInt64BigEndian(counter, step);
#pragma warning disable CA5350 // The standard says SHA-1, and every device does it so.
        var hash = HMACSHA1.HashData(key, counter);
#pragma warning restore CA5350
        var from = hash[^1] & 0xF;
        var number = BinaryPrimitives.ReadInt32BigEndian(hash.AsSpan(from, 4)) & 0x7FFFFFFF;
        return (number % (int)Math.Pow(10, digits)).ToString(CultureInfo.InvariantCulture).PadLeft(digits, '0');
    }

    /// <summary>RFC 4648, base 32, as a person copies it: in groups and small letters.</summary>
    public static byte[] Bytes(string secret)
    {
        var (bits, held, bytes) = (0, 0, new List<byte>());
        foreach (var sign in secret.Where(char.IsLetterOrDigit))
        {
            held = (held << 5) | Letters.IndexOf(char.ToUpperInvariant(sign), StringComparison.Ordinal);
            bits += 5;
            if (bits >= 8)
            {
                bits -= 8;
                bytes.Add((byte)(held >> bits));
                held &= (1 << bits) - 1;
            }
        }

        return [.. bytes];
    }
}

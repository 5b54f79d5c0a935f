using System.Buffers.Text;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;

namespace Tankside.Portal.Accounts;

/// <summary>
/// Recovery codes as they lie in the database: "h1", the rounds, the salt of the set, and of each code its PBKDF2 with SHA-512. One salt for the ten
/// of a person, so that a code typed costs one reckoning and not ten; 128 bits of each hash are kept, more than the code itself has.
/// </summary>
public static class HashedCodes
{
    private const string Mark = "h1";

    private const int Bytes = 16;

    public static bool AreHashed(string kept) => kept.StartsWith(Mark + " ", StringComparison.Ordinal);

    public static string Make(IEnumerable<string> codes, int rounds)
    {
        var salt = RandomNumberGenerator.GetBytes(Bytes);
        return string.Join(' ', [Mark, rounds.ToString(CultureInfo.InvariantCulture), Base64Url.EncodeToString(salt), .. codes.Select(c => Base64Url.EncodeToString(Hash(c, salt, rounds)))]);
    }

    public static int Count(string kept) => kept.Split(' ').Length - 3;

    /// <summary>What is left once this code is used up; null when it is none of them.</summary>
    public static string? Without(string kept, string code)
    {
        var parts = kept.Split(' ');
        var hash = Hash(code, Base64Url.DecodeFromChars(parts[2]), int.Parse(parts[1], CultureInfo.InvariantCulture));
        var left = parts.Where((p, i) => i < 3 || !CryptographicOperations.FixedTimeEquals(Base64Url.DecodeFromChars(p), hash)).ToList();
        return left.Count < parts.Length ? string.Join(' ', left) : null;
    }

    private static byte[] Hash(string code, byte[] salt, int rounds) => Rfc2898DeriveBytes.Pbkdf2(Encoding.UTF8.GetBytes(code), salt, rounds, HashAlgorithmName.SHA512, Bytes);
}

using System.Buffers.Text;
using System.Security.Cryptography;
using System.Text;

namespace Tankside.Portal.Accounts;

/// <summary>Secrets for links and keys: 256 random bits, of which only the hash is kept.</summary>
public static class Secrets
{
    public static string New() => Base64Url.EncodeToString(RandomNumberGenerator.GetBytes(32));

    /// <summary>SHA-256 is enough here: what is hashed is random, not a password that could be guessed.</summary>
    public static string Hash(string secret) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(secret)));
}

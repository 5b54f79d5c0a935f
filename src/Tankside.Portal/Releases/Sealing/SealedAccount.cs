using System.IO.Compression;
using System.Security.Cryptography;
using System.Text.Json;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Releases.Files;

namespace Tankside.Portal.Releases.Sealing;

/// <summary>An account as it is kept under its seal.</summary>
public static class SealedAccount
{
    /// <summary>What can be worked out again is not kept twice.</summary>
    private static readonly JsonSerializerOptions Kept = new() { IgnoreReadOnlyProperties = true };

    public static byte[] Pack(SeasonTotals totals)
    {
        using var packed = new MemoryStream();
        using (var zip = new GZipStream(packed, CompressionLevel.Optimal, leaveOpen: true))
        {
            JsonSerializer.Serialize(zip, totals with { Seal = null }, Kept);
        }

        return packed.ToArray();
    }

    public static SeasonTotals Unpack(SeasonSeal seal)
    {
        using var zip = new GZipStream(new MemoryStream(seal.Account), CompressionMode.Decompress);
        var totals = JsonSerializer.Deserialize<SeasonTotals>(zip, Kept) ?? throw new InvalidDataException("a sealed account is empty");
        return totals with { Seal = new SealMark(seal.SealedAt, seal.Checksum) };
    }

    /// <summary>SHA-256 of the CSV file that the account gives.</summary>
    public static string Checksum(SeasonTotals totals) => Convert.ToHexStringLower(SHA256.HashData(TotalsCsv.Write(totals)));
}

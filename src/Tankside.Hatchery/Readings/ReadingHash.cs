using System.Security.Cryptography;
using System.Text.Json;

namespace Tankside.Hatchery.Readings;

/// <summary>Fingerprint of a reading's parsed content: equal for "9.40" and "9.4", different for any other value.</summary>
public static class ReadingHash
{
    public static string Of(DateTime at, Observation seen, Guid? corrects)
    {
        var content = JsonSerializer.SerializeToUtf8Bytes(new Content(at.Ticks, seen, corrects));
        return Convert.ToHexStringLower(SHA256.HashData(content).AsSpan(0, 16));
    }

    private sealed record Content(long At, Observation Seen, Guid? Corrects);
}

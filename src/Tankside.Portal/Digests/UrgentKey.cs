using System.Globalization;

namespace Tankside.Portal.Digests;

/// <summary>A mail to one person about tanks that cannot wait.</summary>
/// <param name="Slot">The instant it is meant for: at most one a tank and hour.</param>
/// <param name="Tanks">Codes of the tanks it is about.</param>
public sealed record UrgentKey(DateTime Slot, IReadOnlyList<string> Tanks, Guid Person)
{
    /// <summary>What the key of every such mail begins with.</summary>
    public const string Beginning = "urgent ";

    private const string Format = "yyyyMMdd'T'HHmmssfff";

    /// <summary>Room for codes in a key.</summary>
    private const int Longest = 330;

    public static UrgentKey? Read(string key) =>
        key.Split(' ') is ["urgent", var slot, var tanks, var person]
        && DateTime.TryParseExact(slot, Format, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal | DateTimeStyles.AdjustToUniversal, out var at)
        && Guid.TryParse(person, out var to)
            ? new UrgentKey(at, [.. tanks.Split(',').Select(Uri.UnescapeDataString)], to)
            : null;

    /// <summary>Tanks in parts that fit a key each; more in one mail nobody would read.</summary>
    public static IEnumerable<IReadOnlyList<string>> Parts(IEnumerable<string> tanks)
    {
        var part = new List<string>();
        foreach (var tank in tanks)
        {
            if (part.Sum(Length) + Length(tank) > Longest)
            {
                yield return part;
                part = [];
            }

            part.Add(tank);
        }

        if (part.Count > 0)
        {
            yield return part;
        }
    }

    /// <summary>A code may hold a space or a comma, which a key may not.</summary>
    private static int Length(string tank) => Uri.EscapeDataString(tank).Length + 1;

    public override string ToString() => string.Create(
        CultureInfo.InvariantCulture, $"{Beginning}{Slot.ToString(Format, CultureInfo.InvariantCulture)} {string.Join(',', Tanks.Select(Uri.EscapeDataString))} {Person:N}");
}

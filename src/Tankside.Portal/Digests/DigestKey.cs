using System.Globalization;

namespace Tankside.Portal.Digests;

/// <summary>The morning mail of one local day to one person.</summary>
public sealed record DigestKey(DateOnly Day, Guid Programme, Guid Person)
{
    private const string Word = "digest";

    /// <summary>What the keys of a programme's whole day begin with.</summary>
    public static string Beginning(DateOnly day, Guid programme) =>
        string.Create(CultureInfo.InvariantCulture, $"{Word} {day:yyyy-MM-dd} {programme:N} ");

    public static DigestKey? Read(string key) =>
        key.Split(' ') is [Word, var day, var programme, var person]
        && DateOnly.TryParseExact(day, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var on)
        && Guid.TryParse(programme, out var of) && Guid.TryParse(person, out var to)
            ? new DigestKey(on, of, to)
            : null;

    public override string ToString() => $"{Beginning(Day, Programme)}{Person:N}";
}

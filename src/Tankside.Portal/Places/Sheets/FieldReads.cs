using System.Globalization;
using Tankside.Portal.Shell.Sheets;

namespace Tankside.Portal.Places.Sheets;

/// <summary>Cells as values are written here; null for what cannot be read.</summary>
public static class FieldReads
{
    public static Func<string, string?> Text(int longest) => cell => cell.Length <= longest ? cell : null;

    public static Func<string, string?> Number(double least, double most) =>
        cell => CellWords.Number(cell) is { } number && number >= least && number <= most ? Of(number) : null;

    public static string? Clock(string cell) => SheetDates.ReadTime(cell) is { } time ? Of(time) : null;

    public static string? YesNo(string cell) => CellWords.YesNo(cell) is { } yes ? yes ? "yes" : "no" : null;

    /// <summary>One of some words, whatever their capitals and signs between.</summary>
    public static Func<string, string?> OneOf(IReadOnlyDictionary<string, string> words) =>
        cell => words.GetValueOrDefault(Headings.Plain(cell));

    public static Func<string, string?> Day(DateOrder order) =>
        cell => SheetDates.Read(cell, order)?.Day is { Year: > 2000 and < 2100 } day ? Of(day) : null;

    public static string Of(double? number) => number?.ToString("0.######", CultureInfo.InvariantCulture) ?? "";

    public static string Of(TimeOnly time) => time.ToString("HH:mm", CultureInfo.InvariantCulture);

    public static string Of(TimeOnly? time) => time is { } at ? Of(at) : "";

    public static string Of(DateOnly? day) => day?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) ?? "";

    public static string Of(bool yes) => yes ? "yes" : "no";

    public static double? NumberOf(string value) => value.Length == 0 ? null : double.Parse(value, CultureInfo.InvariantCulture);

    public static TimeOnly TimeOf(string value) => TimeOnly.ParseExact(value, "HH:mm", CultureInfo.InvariantCulture);

    public static TimeOnly? TimeOrNull(string value) => value.Length == 0 ? null : TimeOf(value);

    public static DateOnly? DayOf(string value) => value.Length == 0 ? null : DateOnly.ParseExact(value, "yyyy-MM-dd", CultureInfo.InvariantCulture);

    /// <summary>A name by which two ways of writing it meet.</summary>
    public static string Same(string name) =>
        string.Join(' ', Headings.Sound(name).Normalize().Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)).ToUpperInvariant();

    public static string? OrNull(string value) => value.Length == 0 ? null : value;
}

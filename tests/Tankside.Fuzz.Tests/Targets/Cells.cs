using System.Globalization;
using Tankside.Portal.Places.Sheets;
using Tankside.Portal.Readings.Sheets;
using Tankside.Portal.Shell.Sheets;

namespace Tankside.Fuzz.Tests.Targets;

/// <summary>One cell or heading: days, times, numbers, ticks and what a heading means.</summary>
public static class Cells
{
    private static readonly string[] Words =
    [
        "2027", "27", "3", "03", "29", "31", "/", "-", ".", ",", ":", "h", "T", "am", "PM", "a. m.", "Jan", "enero", "febrero", "Sept", "dic", "Monday", "lunes", "de", "st", "th", "46054", "46054.5", "0.34", "8:15", "8h15", "13",
        "GMT", "UTC", "+07:00", "-0700", "−7", "GMT+٠٧", "Temp", "Water", "°F", "°C", "(C)", "room", "dead", "eggs", "alevin", "pH", "DO", "%", "sat", "student", "edad", "phone", "52", "F", "C", "yes", "n/a", "half",
    ];

    public static Target Target { get; } = new("cells", dice => Texts.Bytes(Texts.Of(dice, Words, 9, dice.Of(["", " "]))), Read) { Words = Words, LongestInput = SheetLimits.LongestCell };

    private static string Read(byte[] bytes)
    {
        var text = Texts.Read(bytes);
        if (text.Length > SheetLimits.LongestCell)
        {
            return "too long for a cell";
        }

        var moments = new[] { DateOrder.MonthFirst, DateOrder.DayFirst }.Select(order => Moment(text, order)).ToList();
        var ways = SheetDates.Ways(text);
        Held.That(ways is null || ways.Value.MonthFirst == (moments[0] is not null) || moments[0] is null, "A date that is none month first is read month first.");
        var time = SheetDates.ReadTime(text);
        Held.That(time is not { } at || SheetDates.ReadTime(at.ToString("HH:mm:ss", CultureInfo.InvariantCulture)) == TimeOnly.FromTimeSpan(TimeSpan.FromSeconds(Math.Floor(at.ToTimeSpan().TotalSeconds))), "A time that was written again is read as another.");
        var number = CellWords.Number(text);
        Held.That(number is not { } n || double.IsFinite(n), "A number is not finite.");
        _ = (CellWords.Count(text), CellWords.YesNo(text), ShareWords.ShareOf(text));
        var heading = $"{HeaderWords.MeaningOf(text)} {HeaderWords.UnitOf(text)} {ChildWords.IsOfChildren(text)} {ChildWords.IsOfTelephones(text)} {ReceiveCalendar.LooksShut(text)}";
        var offset = HeaderWords.OffsetOf(text);
        Held.That(offset is null || offset.Value.Duration() <= TimeSpan.FromHours(14), "No clock is so far from UTC.");
        Held.Storable(SheetTexts.FileName(text), "A file's name");
        _ = FieldReads.Same(text);
        return $"{moments[0] is not null} {moments[1] is not null} {ways} {time is not null} {number is not null} {heading} {offset is not null}";
    }

    private static SheetMoment? Moment(string text, DateOrder order)
    {
        var read = SheetDates.Read(text, order);
        if (read is { } moment)
        {
            var again = SheetDates.Read(moment.Time is { } t ? $"{moment.Day:yyyy-MM-dd} {t:HH:mm:ss}" : $"{moment.Day:yyyy-MM-dd}", order);
            Held.That(again?.Day == moment.Day && again?.Time?.Hour == moment.Time?.Hour && again?.Time?.Minute == moment.Time?.Minute, "A date that was written again is read as another.");
        }

        return read;
    }
}

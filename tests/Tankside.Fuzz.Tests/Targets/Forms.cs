using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.WebUtilities;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Flags.AtTheTank;
using Tankside.Portal.Flags.Sweeps;
using Tankside.Portal.Readings;

namespace Tankside.Fuzz.Tests.Targets;

/// <summary>What classes and adults send from a tank: the form of the day, a week at once, the answer to a question, what lay in the outbox.</summary>
public static class Forms
{
    private static readonly string[] Fields =
    [
        "id", "unit", "water", "moving", "bubbles", "levelOk", "clear", "chillerRunning", "iceOnCoil", "fed", "fungus", "gasping", "deadEggs", "deadAlevins", "deadFry", "hatched", "swimming", "roomTemperature", "ph",
        "ammoniaTotalMgL", "nitriteMgL", "oxygenMgL", "chlorineMgL", "waterChangedPercent", "note", "corrects", "sure", "again", "typedAt", "sentAt", "readAt", "about", "choice", "answer", "tank", "of", "instead",
        "ok.0", "id.0", "water.0", "time.0", "unit.0", "dead.0", "moving.0", "bubbles.1", "note.1", "water.4", "time.4",
    ];

    private static readonly string[] Values =
    [
        "52", "52,5", "52.5 F", "11°C", "-1", "true", "false", "yes", "no", "on", "half", "none", "F", "C", "7b0c1f7e-3a53-4c1e-9d2b-0c2f3a4b5c6d", "", " ", "8:15", "08:15:30", "8:15 AM", "the pump hums\nloudly", "7.2", "0", "3", "1801000000000",
        "1801000060000", "AsTyped", "Other", "99", "sí", "x", "2027-02-01", "00000000000000000000000000000000000000000000000052",
    ];

    public static Target Target { get; } = new("forms", Make, Read) { Words = [.. Fields.Select(f => $"&{f}="), .. Values.Select(Uri.EscapeDataString)], MostBytesEach = 4_000 };

    private static byte[] Make(Dice dice) => Texts.Form(Enumerable.Range(0, dice.Below(12)).Select(_ => (dice.Of(Fields), dice.OneIn(6) ? dice.Of(Mutations.Odd) : dice.Of(Values))));

    private static string Read(byte[] bytes)
    {
        FormCollection fields;
        try
        {
            using var reader = new FormReader(new MemoryStream(bytes));
            fields = new FormCollection(reader.ReadForm());
        }
        catch (InvalidDataException)
        {
            return "refused before it is read";
        }

        return string.Join('|', new[] { ClassWords.English, ClassWords.Spanish }.Select(words => OfToday(fields, words)).Append(OfWeek(fields)).Append(OfDoubt(fields)).Append(OfReply(fields)));
    }

    private static string OfToday(FormCollection fields, ClassWords words)
    {
        var form = ReadingFormInput.Read(fields, Guid.Empty, TemperatureUnit.F, words);
        if (form.Errors.Count > 0)
        {
            Held.Said(form.Errors.Values);
            return string.Join(' ', form.Errors.Keys.Order(StringComparer.Ordinal));
        }

        Held.That(ObservationRules.Check(form.Seen).Count == 0, "Something was taken that no tank can have.");
        Held.That(form.Waited >= TimeSpan.Zero && form.Waited < TimeSpan.FromDays(200), "A form waited longer than there is.");
        _ = form.ContradictionQuestions.ToList();
        ReadingsJson.CheckTyped(form.Water, form.Seen);
        var again = ReadingFormInput.Read(new FormCollection(Fields.Where(f => form[f].Length > 0).ToDictionary(f => f, f => new Microsoft.Extensions.Primitives.StringValues(form[f]))), form.Id, TemperatureUnit.F, words);
        Held.That(again.Errors.Count == 0 && again.Seen == form.Seen && again.Water == form.Water && again.Corrects == form.Corrects, "The form as it is shown again says something else.");
        return $"taken {form.Water?.Unit} {form.AsksAboutContradictions}";
    }

    private static string OfWeek(FormCollection fields)
    {
        var clock = ProgrammeClock.Of("America/Denver");
        var rows = Enumerable.Range(0, 5).Select(i => WeekRow.Read(fields, i, new DateOnly(2027, 2, 1).AddDays(i), TemperatureUnit.F, "deadEggs", "08:00", ClassWords.English)).ToList();
        foreach (var row in rows.Where(r => !r.IsBlank && r.Form.Errors.Count == 0))
        {
            _ = row.At(clock);
            ReadingsJson.CheckTyped(row.Form.Water, row.Form.Seen);
        }

        return string.Join(' ', rows.Select(r => r.IsBlank ? "blank" : r.Form.Errors.Count == 0 ? "whole" : "wrong"));
    }

    private static string OfDoubt(FormCollection fields)
    {
        if (DoubtReply.Read(fields) is not { } reply)
        {
            return "no answer";
        }

        Held.That(Enum.IsDefined(reply.Choice), "An answer that is none of the four was taken.");
        ReadingsJson.CheckTyped(reply.Water, new Observation());
        return $"{reply.Choice}";
    }

    private static string OfReply(FormCollection fields)
    {
        var input = ReplyInput.Read(fields);
        return $"{input.Water.Length > 0} {input.Note.Length > TakeReply.LongestNote} {input.Tank is not null}";
    }
}

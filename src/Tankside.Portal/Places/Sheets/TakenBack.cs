using System.Text.Json;
using Tankside.Hatchery.Places;

namespace Tankside.Portal.Places.Sheets;

/// <summary>Taking back what an import did to things with fields: never over what somebody else has done since.</summary>
public static class TakenBack
{
    public static IReadOnlyList<FieldChange> FieldsOf(PlaceImportLine line) => JsonSerializer.Deserialize<List<FieldChange>>(line.Fields) ?? [];

    /// <summary>Sets the fields of a thing that was changed back, each unless it has another value by now.</summary>
    public static void SetBack<T>(PlaceImportLine line, T? there, IReadOnlyList<ThingField<T>> fields)
        where T : class
    {
        if (there is null)
        {
            line.Stayed = "It is not there any more.";
            return;
        }

        var stays = new List<string>();
        foreach (var change in FieldsOf(line))
        {
            var field = fields.Single(f => f.Field.Key == change.Key);
            if (field.Get(there) == change.To)
            {
                field.Set(there, change.From);
            }
            else if (field.Get(there) != change.From)
            {
                stays.Add($"{change.Word} was changed since to “{field.Get(there)}”, and stays so.");
            }
        }

        line.Stayed = stays.Count == 0 ? null : string.Join(" ", stays);
    }

    /// <summary>Which field of a thing that was added somebody has changed since; null for none.</summary>
    public static string? ChangedSince<T>(PlaceImportLine line, T there, IReadOnlyList<ThingField<T>> fields)
        where T : class
    {
        var changed = FieldsOf(line).FirstOrDefault(c => fields.FirstOrDefault(f => f.Field.Key == c.Key) is { } field && field.Get(there) != c.To);
        return changed is null ? null : $"It stays: its {changed.Word} was changed since.";
    }
}

using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Portal.Shell.Sheets;
using Tankside.Storage;

namespace Tankside.Portal.Places.Sheets;

/// <summary>A sheet of schools, a school a row. Its name says which school it is.</summary>
public sealed class SchoolSheet : IPlaceSheet
{
    public PlaceSheet Holds => PlaceSheet.Schools;

    public IReadOnlyList<SheetField> Fields { get; } = [SchoolFields.Name, .. SchoolFields.All.Select(f => f.Field)];

    public IReadOnlyList<SheetField> Keys { get; } = [SchoolFields.Name];

    public IReadOnlyList<string> Example { get; } = ["Heron Ford Elementary", "north", "8:00", "15:15", "9:00", "14:30", "lunch 11:40 to 12:20", "Park behind the gym; blue door; sign in at the office", "chloramine", "Alder Basin Water", "let the tap run a minute", "44.12", "-113.2", "1420", "12"];

    public async Task<IReadOnlyList<PlannedRow>> PlanAsync(HatcheryDb db, PlaceAsk ask, IReadOnlyList<PlaceCells> rows, CancellationToken cancel)
    {
        var there = (await db.Schools.Where(s => s.ProgrammeId == ask.User.ProgrammeId).ToListAsync(cancel)).ToLookup(s => FieldReads.Same(s.Name));
        var before = new Dictionary<string, int>(StringComparer.Ordinal);
        return [.. rows.Select(row => PlanRow(row, there, before, ask))];
    }

    public async Task TakeBackAsync(HatcheryDb db, PlaceAsk ask, IReadOnlyList<PlaceImportLine> lines, CancellationToken cancel)
    {
        var ids = lines.Select(l => l.ThingId).ToList();
        var there = await db.Schools.Where(s => s.ProgrammeId == ask.User.ProgrammeId && ids.Contains(s.Id)).ToDictionaryAsync(s => s.Id, cancel);
        var used = await WhatRefers.ToAsync(db, ids, "SchoolId", [typeof(Invitation)], cancel);
        var invited = await db.Invitations.Where(i => i.SchoolId != null && ids.Contains(i.SchoolId.Value) && i.WithdrawnAt == null && i.AcceptedAt == null)
            .Select(i => i.SchoolId!.Value).Distinct().ToListAsync(cancel);
        foreach (var line in lines)
        {
            var school = there.GetValueOrDefault(line.ThingId);
            if (!line.Added || school is null)
            {
                TakenBack.SetBack(line, school, SchoolFields.All);
            }
            else
            {
                line.Stayed = used.GetValueOrDefault(school.Id) ?? (invited.Contains(school.Id) ? "It stays: somebody is invited to it." : null)
                    ?? TakenBack.ChangedSince(line, school, SchoolFields.All);
                if (line.Stayed is null)
                {
                    db.Schools.Remove(school);
                }
            }
        }
    }

    private static PlannedRow PlanRow(PlaceCells cells, ILookup<string, School> there, Dictionary<string, int> before, PlaceAsk ask)
    {
        var name = cells.Need(SchoolFields.Name);
        if (name.Length > 100)
        {
            cells.Unclear("The name is longer than 100 signs.");
        }

        var same = there[FieldReads.Same(name)].ToList();
        if (same.Count > 1)
        {
            cells.Unclear($"Your programme has {same.Count} schools that are called so but for capitals. Rename one first.");
        }

        if (name.Length > 0 && !before.TryAdd(FieldReads.Same(name), cells.Row.Number))
        {
            cells.Unclear($"{SheetTexts.Shortened(name)} stands in row {before[FieldReads.Same(name)]} already. Expected: a row a school.");
        }

        var school = same.FirstOrDefault();
        var changes = cells.Compare(school, SchoolFields.All);
        var fresh = school ?? new School { Id = Guid.CreateVersion7(), ProgrammeId = ask.User.ProgrammeId, Name = name, Area = "" };
        CheckHours(cells, fresh, changes);
        CheckDeliveries(cells, fresh, changes);
        return PlannedRow.Of(cells, school?.Name ?? name, [new PlannedThing(PlaceThing.School, fresh.Id, fresh.Name, school is null, changes, db =>
        {
            SchoolFields.Set(fresh, SchoolFields.All, changes);
            if (school is null)
            {
                db.Schools.Add(fresh);
            }
        })]);
    }

    private static void CheckHours(PlaceCells cells, School school, IReadOnlyList<FieldChange> changes)
    {
        var opens = changes.FirstOrDefault(c => c.Key == "opens") is { } from ? FieldReads.TimeOf(from.To) : school.OpensAt;
        var closes = changes.FirstOrDefault(c => c.Key == "closes") is { } to ? FieldReads.TimeOf(to.To) : school.ClosesAt;
        if (closes <= opens)
        {
            cells.Unclear($"It would open at {FieldReads.Of(opens)} and close at {FieldReads.Of(closes)}. Expected: a school closes after it opens.");
        }
    }

    private static void CheckDeliveries(PlaceCells cells, School school, IReadOnlyList<FieldChange> changes)
    {
        var from = changes.FirstOrDefault(c => c.Key == "deliver-from") is { } first ? FieldReads.TimeOrNull(first.To) : school.DeliverFrom;
        var by = changes.FirstOrDefault(c => c.Key == "deliver-by") is { } last ? FieldReads.TimeOrNull(last.To) : school.DeliverBy;
        if (by <= from)
        {
            cells.Unclear($"It would take deliveries from {FieldReads.Of(from)} and by {FieldReads.Of(by)}. Expected: by a time after the one from which.");
        }
    }
}

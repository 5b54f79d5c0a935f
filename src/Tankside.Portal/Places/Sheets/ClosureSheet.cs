using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Places;
using Tankside.Portal.Shell.Sheets;
using Tankside.Storage;

namespace Tankside.Portal.Places.Sheets;

/// <summary>A sheet of days on which schools are shut. School, first and last day say which closure it is.</summary>
public sealed class ClosureSheet : IPlaceSheet
{
    private const int LongestReason = 80;

    private static readonly SheetField School = new("school", "school", ["school", "where", "building", "escuela"], "the name of a school of your programme, or “all”"),
        First = new("first", "first day", ["first day", "first", "from", "start*", "begin*", "date", "day", "desde", "fecha"], "a day with month and year, such as 2027-02-15", Required: true, IsDay: true),
        Last = new("last", "last day", ["last day", "last", "to", "until", "through", "end*", "hasta"], "a day with month and year, such as 2027-02-19", IsDay: true),
        Reason = new("why", "reason", ["why", "reason", "closure", "holiday", "break", "event", "motivo"], "why, in at most 80 signs, such as Winter break", Required: true);

    private static readonly ThingField<Closure>[] Kept = [new(Reason, FieldReads.Text(LongestReason), c => c.Reason, (c, v) => c.Reason = v)];

    private static readonly HashSet<string> All = ["ALL", "ALL SCHOOLS", "EVERYWHERE", "DISTRICT", "TODAS", "*"];

    public PlaceSheet Holds => PlaceSheet.Closures;

    public IReadOnlyList<SheetField> Fields { get; } = [School, First, Last, Reason];

    public IReadOnlyList<SheetField> Keys { get; } = [First, Reason];

    public IReadOnlyList<string> Example { get; } = ["Heron Ford Elementary", "2027-02-15", "2027-02-19", "Winter break"];

    public async Task<IReadOnlyList<PlannedRow>> PlanAsync(HatcheryDb db, PlaceAsk ask, IReadOnlyList<PlaceCells> rows, CancellationToken cancel)
    {
        var schools = await SchoolNames.LoadAsync(db, ask.User.ProgrammeId, cancel);
        var there = (await db.Closures.Where(c => c.ProgrammeId == ask.User.ProgrammeId).ToListAsync(cancel)).ToLookup(c => (c.SchoolId, c.FirstDay, c.LastDay));
        var before = new Dictionary<(Guid?, DateOnly, DateOnly), int>();
        return [.. rows.Select(row => PlanRow(row, schools, there, before, ask))];
    }

    public async Task TakeBackAsync(HatcheryDb db, PlaceAsk ask, IReadOnlyList<PlaceImportLine> lines, CancellationToken cancel)
    {
        var ids = lines.Select(l => l.ThingId).ToList();
        var there = await db.Closures.Where(c => c.ProgrammeId == ask.User.ProgrammeId && ids.Contains(c.Id)).ToDictionaryAsync(c => c.Id, cancel);
        foreach (var line in lines)
        {
            var closure = there.GetValueOrDefault(line.ThingId);
            if (!line.Added || closure is null)
            {
                TakenBack.SetBack(line, closure, Kept);
            }
            else if ((line.Stayed = TakenBack.ChangedSince(line, closure, Kept)) is null)
            {
                db.Closures.Remove(closure);
            }
        }
    }

    private static PlannedRow PlanRow(
        PlaceCells cells, SchoolNames schools, ILookup<(Guid?, DateOnly, DateOnly), Closure> there, Dictionary<(Guid?, DateOnly, DateOnly), int> before, PlaceAsk ask)
    {
        var where = cells[School];
        var everywhere = where.Length == 0 || All.Contains(where.ToUpperInvariant());
        var school = everywhere ? null : schools.Find(cells, where);
        var first = Day(cells, First, ask.Order, cells.Need(First));
        var last = cells[Last] is { Length: > 0 } said ? Day(cells, Last, ask.Order, said) : first;
        var why = cells[Reason];
        if (first is { } from && last is { } to)
        {
            CheckDays(cells, from, to);
        }

        var name = $"{(everywhere ? "all schools" : where)}, {FieldReads.Of(first)}{(last == first ? "" : $" to {FieldReads.Of(last)}")}";
        if (cells.Why.Count > 0)
        {
            return PlannedRow.Of(cells, name, []);
        }

        var key = (school?.Id, first!.Value, last!.Value);
        if (!before.TryAdd(key, cells.Row.Number))
        {
            cells.Unclear($"The same days stand in row {before[key]} already.");
        }

        var closure = there[key].FirstOrDefault();
        var changes = cells.Compare(closure, Kept);
        var fresh = closure ?? new Closure { Id = Guid.CreateVersion7(), ProgrammeId = ask.User.ProgrammeId, SchoolId = school?.Id, FirstDay = key.Item2, LastDay = key.Item3, Reason = why };
        return PlannedRow.Of(cells, name, [new PlannedThing(PlaceThing.Closure, fresh.Id, name, closure is null, changes, db =>
        {
            SchoolFields.Set(fresh, Kept, changes);
            if (closure is null)
            {
                db.Closures.Add(fresh);
            }
        })], everywhere ? "For every school of the programme." : "");
    }

    private static DateOnly? Day(PlaceCells cells, SheetField field, DateOrder order, string cell)
    {
        var day = FieldReads.Day(order)(cell);
        if (day is null && cell.Length > 0)
        {
            cells.Unclear($"“{SheetTexts.Shortened(cell)}” is no {field.Word}. Expected: {field.Expected}.");
        }

        return day is null ? null : FieldReads.DayOf(day);
    }

    private static void CheckDays(PlaceCells cells, DateOnly first, DateOnly last)
    {
        if (last < first)
        {
            cells.Unclear($"The last day, {FieldReads.Of(last)}, is before the first, {FieldReads.Of(first)}.");
        }
        else if (last.DayNumber - first.DayNumber >= EditClosures.MostDays)
        {
            cells.Unclear($"From {FieldReads.Of(first)} to {FieldReads.Of(last)} are more than {EditClosures.MostDays} days. Expected: fewer; look at the years.");
        }
    }
}

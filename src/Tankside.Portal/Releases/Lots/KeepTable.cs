using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Accounts;
using Tankside.Science.Eggs;
using Tankside.Storage;

namespace Tankside.Portal.Releases.Lots;

public sealed class TableForm
{
    public string? Species { get; set; }

    public string? Stage { get; set; } = nameof(Science.Eggs.Stage.Hatch);

    public string? Unit { get; set; } = nameof(TemperatureUnit.F);

    public string? Rows { get; set; }

    public string? Source { get; set; }

    /// <summary>Species with a stage that no published rule is known for.</summary>
    public static IReadOnlyList<Species> Unpublished { get; } =
        [.. Enum.GetValues<Species>().Where(s => !StageModels.TryFind(s, Science.Eggs.Stage.Hatch, out _, out _) || !StageModels.TryFind(s, Science.Eggs.Stage.SwimUp, out _, out _))];

    public static string Word(Stage stage) => stage switch
    {
        Science.Eggs.Stage.Hatch => "half hatch",
        Science.Eggs.Stage.SwimUp => "half swimming up",
        Science.Eggs.Stage.Eyed => "half eyed",
    };
}

/// <summary>Keeps a programme's own stage tables, one for each species and stage.</summary>
public sealed class KeepTable(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    public async Task<IReadOnlyList<OwnStageTable>> LoadAsync(CurrentUser user, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.OwnStageTables.AsNoTracking().Where(t => t.ProgrammeId == user.ProgrammeId).OrderBy(t => t.Species).ThenBy(t => t.Stage).ToListAsync(cancel);
    }

    public Task<Notice?> HandleAsync(CurrentUser user, TableForm form, Action<string, string> refuse, CancellationToken cancel) =>
        InTurn.SaveAsync(() => TryAsync(user, form, refuse, cancel), refuse);

    private async Task<Notice?> TryAsync(CurrentUser user, TableForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        var typed = new TypedFields(refuse);
        var species = typed.Choice<Species>(nameof(form.Species), form.Species, "Choose the species.");
        var stage = typed.Choice<Stage>(nameof(form.Stage), form.Stage, "Choose the stage.");
        var unit = typed.Choice<TemperatureUnit>(nameof(form.Unit), form.Unit, "Choose °F or °C.");
        var source = typed.Name(nameof(form.Source), form.Source, "Say where the numbers come from; it stands beside every date.");
        var rows = Rows(form.Rows, unit, typed);
        if (typed.AllGood && StageModels.TryFind(species, stage, out var published, out _))
        {
            typed.Refuse(nameof(form.Species), $"For this stage there is a published rule, and it is used: {published.Source}.");
        }

        if (typed.AllGood && OwnStageTable.WrongWith(species, stage, rows) is { } why)
        {
            typed.Refuse(nameof(form.Rows), why);
        }

        if (!typed.AllGood)
        {
            return null;
        }

        await using var db = await databases.CreateDbContextAsync(cancel);
        var now = Shell.Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        var table = await db.OwnStageTables.SingleOrDefaultAsync(t => t.ProgrammeId == user.ProgrammeId && t.Species == species && t.Stage == stage, cancel);
        if (table is null)
        {
            db.OwnStageTables.Add(table = new OwnStageTable { Id = Guid.CreateVersion7(), ProgrammeId = user.ProgrammeId, Species = species, Stage = stage, Points = "", Source = "" });
        }

        (table.Points, table.Source, table.EnteredAt, table.EnteredBy) = (OwnStageTable.Write(rows), source, now, user.PersonId);
        await db.SaveChangesAsync(cancel);
        return new Notice(true, $"The table is used from now on for {SpeciesCodes.CommonName(species)}, {TableForm.Word(stage)}.");
    }

    public async Task<Notice> DropAsync(CurrentUser user, Guid id, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var gone = new Notice(false, "This table was gone already. Nothing was changed.");
        if (await db.OwnStageTables.SingleOrDefaultAsync(t => t.Id == id && t.ProgrammeId == user.ProgrammeId, cancel) is not { } table)
        {
            return gone;
        }

        db.OwnStageTables.Remove(table);
        try
        {
            await db.SaveChangesAsync(cancel);
        }
        catch (DbUpdateConcurrencyException)
        {
            return gone;
        }

        return new Notice(true, "The table is taken away. Its species has no dates until another is entered.");
    }

    private static List<(double C, double Days)> Rows(string? text, TemperatureUnit unit, TypedFields typed)
    {
        var rows = new List<(double, double)>();
        var lines = (text ?? "").Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        for (var i = 0; i < lines.Length; i++)
        {
            var parts = lines[i].Split([' ', '\t', ';'], StringSplitOptions.RemoveEmptyEntries);
            if (parts.Length != 2 || !WaterTemperature.TryRead(parts[0], out var degrees, out var own) || !WaterTemperature.TryRead(parts[1], out var days, out _))
            {
                typed.Refuse(nameof(TableForm.Rows), $"Line {i + 1}, “{lines[i]}”, is not a temperature and a number of days with a space between.");
                return [];
            }

            rows.Add((Math.Round(WaterTemperature.ToC(degrees, own ?? unit), 3), days));
        }

        return rows;
    }
}

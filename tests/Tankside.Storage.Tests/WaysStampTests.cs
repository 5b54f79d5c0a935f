using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Testing;

namespace Tankside.Storage.Tests;

/// <summary>The databases themselves see to it that a programme's stamp is another one after each change of its own ways.</summary>
public class WaysStampTests
{
    [Theory, BothDatabases]
    public async Task Each_change_of_a_programmes_ways_stamps_it_anew_and_no_other_programme(DatabaseKind kind)
    {
        await using var database = await TestDatabase.CreateAsync(kind);
        var world = await TestWorld.SeedAsync(database);
        var (one, two) = (world.One.Programme.Id, world.Two.Programme.Id);
        await using var db = database.CreateDbContext();
        db.Add(new ProgrammeSetting { ProgrammeId = two, Key = "warm.look.egg", Value = 12 });
        await db.SaveChangesAsync();
        var (others, seen) = (await StampAsync(db, two), new List<long> { await StampAsync(db, one) });

        foreach (var row in Ways(one))
        {
            db.Add(row);
            await SeenAfterAsync(() => db.SaveChangesAsync());
        }

        // Past the change tracker as well, as statements and as whoever edits the database by hand.
        await SeenAfterAsync(() => db.Closures.Where(c => c.ProgrammeId == one).ExecuteUpdateAsync(c => c.SetProperty(x => x.Reason, "Snow")));
        await SeenAfterAsync(() => db.Settings.Where(s => s.ProgrammeId == one).ExecuteUpdateAsync(s => s.SetProperty(x => x.Value, 13)));
        await SeenAfterAsync(() => db.OwnTexts.Where(t => t.ProgrammeId == one).ExecuteUpdateAsync(t => t.SetProperty(x => x.En, "Is it shut?")));
        await SeenAfterAsync(() => db.AreaSweeps.Where(s => s.ProgrammeId == one).ExecuteUpdateAsync(s => s.SetProperty(x => x.EndedAt, SampleRows.At)));
        await SeenAfterAsync(() => db.Closures.Where(c => c.ProgrammeId == one).ExecuteDeleteAsync());
        await SeenAfterAsync(() => db.Settings.Where(s => s.ProgrammeId == one).ExecuteDeleteAsync());
        await SeenAfterAsync(() => db.OwnTexts.Where(t => t.ProgrammeId == one).ExecuteDeleteAsync());
        await SeenAfterAsync(() => db.AreaSweeps.Where(s => s.ProgrammeId == one).ExecuteDeleteAsync());

        Assert.Equal(seen.Count, seen.Distinct().Count());
        Assert.Equal(others, await StampAsync(db, two));

        async Task SeenAfterAsync(Func<Task> change)
        {
            await change();
            seen.Add(await StampAsync(db, one));
        }
    }

    private static IEnumerable<object> Ways(Guid programme) =>
    [
        new Closure { Id = Guid.NewGuid(), ProgrammeId = programme, FirstDay = new DateOnly(2027, 2, 15), LastDay = new DateOnly(2027, 2, 15), Reason = "Holiday" },
        new ProgrammeSetting { ProgrammeId = programme, Key = "warm.look.egg", Value = 12.5 },
        new OwnText { ProgrammeId = programme, Key = "aid.warm.ask", En = "Is the blind down?", Es = "¿Está baja la persiana?" },
        new AreaSweep { Id = Guid.NewGuid(), ProgrammeId = programme, Area = "", Reason = SweepReason.Snow, From = SampleRows.At, MarkedBy = Guid.NewGuid(), MarkedAt = SampleRows.At },
    ];

    private static Task<long> StampAsync(HatcheryDb db, Guid programme) =>
        db.WaysStamps.Where(s => s.ProgrammeId == programme).Select(s => s.Stamp).SingleOrDefaultAsync();
}

using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Readings;
using Tankside.Storage.Readings;
using Tankside.Testing;

namespace Tankside.Storage.Tests;

/// <summary>The days of many tanks are read past EF, and their past as it was packed; they are the same days.</summary>
public class DaysOfTanksTests
{
    [Theory, BothDatabases]
    public async Task The_days_of_few_tanks_and_of_many_are_those_that_were_stored(DatabaseKind kind)
    {
        await using var database = await TestDatabase.CreateAsync(kind);
        var world = await TestWorld.SeedAsync(database);
        var room = world.One.Rooms[0].Id;
        foreach (var tanks in new[] { 3, 40 })
        {
            await AssertSameAsync(database, world.One.Programme.Id, room, tanks);
        }
    }

    private static async Task AssertSameAsync(TestDatabase database, Guid programme, Guid room, int tanks)
    {
        var ids = Enumerable.Range(0, tanks).Select(_ => Guid.NewGuid()).ToList();
        var days = ids.SelectMany((id, i) => new[] { Full(id, 2 + i), Full(id, 1), Bare(id, 3 + i) }).ToList();
        await using (var writer = database.CreateDbContext())
        {
            writer.AddRange(ids.Select((id, i) => new Hatchery.Places.Tank { Id = id, ProgrammeId = programme, ClassroomId = room, Code = $"D{tanks}-{i:000}", Litres = 208, SetPointC = 10 }));
            writer.AddRange(days);
            await writer.SaveChangesAsync();
        }

        await using var db = database.CreateDbContext();
        await using var transaction = await db.Database.BeginTransactionAsync();
        await AssertReadAsync(db, ids, days);

        // Of all but every third what is past is packed, to days that differ.
        var packed = ids.Where((_, i) => i % 3 != 0).ToList();
        await PastDays.RenewAsync(db, packed[..(packed.Count / 2)], SampleRows.At.AddDays(-20), CancellationToken.None);
        await PastDays.RenewAsync(db, packed[(packed.Count / 2)..], SampleRows.At.AddDays(30), CancellationToken.None);
        await db.SaveChangesAsync();
        db.ChangeTracker.Clear();
        await AssertReadAsync(db, ids, days);

        // The reader is given back: the same transaction goes on.
        Assert.Equal(days.Count, await db.TankDays.CountAsync(d => ids.Contains(d.TankId)));
    }

    private static async Task AssertReadAsync(HatcheryDb db, List<Guid> ids, List<TankDay> days)
    {
        var read = await DaysOfTanks.LoadAsync(db, ids, CancellationToken.None);
        foreach (var id in ids)
        {
            var own = read.Of(id);
            Assert.Equal(days.Where(d => d.TankId == id).OrderBy(d => d.Day).Select(RoundTripTests.Text), own.Select(RoundTripTests.Text));
            Assert.All(own, d => Assert.Equal(DateTimeKind.Utc, d.LastAt.Kind));
        }
    }

    private static TankDay Full(Guid tank, int day) => new()
    {
        TankId = tank,
        Day = new DateOnly(2027, 1, 1).AddDays(day),
        Readings = 24,
        WaterReadings = 23,
        FirstAt = SampleRows.At.AddDays(day),
        LastAt = SampleRows.At.AddDays(day).AddHours(3),
        SquaredGapHours = 18.25,
        MeanC = 9.4375 + day,
        MinC = 9.1,
        MaxC = -0.2,
        DeadEggs = 2,
        DeadAlevins = 0,
        DeadFry = day,
        Hatched = Share.Half,
        Swimming = Share.None,
    };

    private static TankDay Bare(Guid tank, int day) => new()
    {
        TankId = tank,
        Day = new DateOnly(2027, 1, 1).AddDays(day),
        Readings = 1,
        FirstAt = SampleRows.At,
        LastAt = SampleRows.At,
    };
}

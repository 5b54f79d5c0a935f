using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Readings;
using Tankside.Storage;

namespace Tankside.Portal.Tests.Readings;

/// <summary>Readings as they come in, for tests that care about only a few of their fields.</summary>
internal static class Sent
{
    public static IncomingReading Water(Tank tank, DateTime at, double celsius, ReadingSource source = ReadingSource.Logger) =>
        Typed(tank, at, FormattableString.Invariant($"{celsius}"), celsius, TemperatureUnit.C) with { Source = source };

    public static IncomingReading Typed(Tank tank, DateTime at, string text, double value, TemperatureUnit unit) =>
        Seen(tank, at, new Observation()) with { Water = new TypedWater(text, value, unit, unit == TemperatureUnit.C ? "waterC" : "waterF") };

    public static IncomingReading Seen(Tank tank, DateTime at, Observation seen, ReadingSource source = ReadingSource.Logger) =>
        new() { SenderId = Guid.NewGuid(), TankId = tank.Id, At = at, Seen = seen, Source = source };

    /// <summary>Stores a batch through the portal's one intake.</summary>
    public static Task<IReadOnlyList<IntakeOutcome>> RecordAsync(this PortalHost host, params IncomingReading[] batch) =>
        host.CallAsync<RecordReadings, IReadOnlyList<IntakeOutcome>>(intake => intake.RecordAsync(batch, CancellationToken.None));

    /// <summary>Stores readings that must all be accepted.</summary>
    public static async Task AcceptAsync(this PortalHost host, params IncomingReading[] batch) =>
        Assert.All(await host.RecordAsync(batch), outcome => Assert.IsType<IntakeOutcome.Accepted>(outcome));

    /// <summary>The ledger lines that readings brought, in the order they were entered.</summary>
    public static async Task<List<(LedgerKind Kind, int Count)>> LossesAsync(HatcheryDb db) =>
        [.. (await db.Ledger.AsNoTracking().Where(e => e.Reading != null).OrderBy(e => e.Id).ToListAsync()).Select(e => (e.Kind, e.Count))];
}

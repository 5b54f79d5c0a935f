using Microsoft.EntityFrameworkCore;
using Tankside.Portal.Readings;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Flags.AtTheTank;

/// <summary>Forms that classes send at the same bell: their labels are looked up and their readings stored together.</summary>
public sealed class SentTogether(IDbContextFactory<HatcheryDb> databases, IServiceScopeFactory scopes) : Together<SentTogether.Form, IntakeOutcome?>
{
    /// <summary>Stores the reading for the tank that the label opens; null when it opens none.</summary>
    /// <param name="code">The room code as <see cref="Hatchery.Places.RoomCodes.Normalise"/> gives it.</param>
    /// <param name="reading">Its tank is filled in here.</param>
    public Task<IntakeOutcome?> SendAsync(string code, IncomingReading reading) => SendAsync(new Form(code, reading));

    protected override async Task<IReadOnlyList<IntakeOutcome?>> TakeAsync(IReadOnlyList<Form> batch)
    {
        var tanks = await TanksOfAsync(batch);
        var known = batch.Where(f => tanks.ContainsKey(f.Code)).ToList();
        await using var scope = scopes.CreateAsyncScope();
        var record = scope.ServiceProvider.GetRequiredService<RecordReadings>();
        var outcomes = new Queue<IntakeOutcome>(
            await record.RecordAsync([.. known.Select(f => f.Reading with { TankId = tanks[f.Code] })], CancellationToken.None));
        return [.. batch.Select(f => tanks.ContainsKey(f.Code) ? outcomes.Dequeue() : null)];
    }

    private async Task<Dictionary<string, Guid>> TanksOfAsync(IReadOnlyList<Form> batch)
    {
        var codes = batch.Select(f => f.Code).Distinct().ToList();
        await using var db = await databases.CreateDbContextAsync();
        return await db.RoomCodes.Where(c => codes.Contains(c.Code) && c.RevokedAt == null).ToDictionaryAsync(c => c.Code, c => c.TankId);
    }

    /// <summary>A form on its way, with the code of its label.</summary>
    public sealed record Form(string Code, IncomingReading Reading);
}

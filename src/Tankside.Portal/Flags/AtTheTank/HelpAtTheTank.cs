using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Readings;
using Tankside.Storage;

namespace Tankside.Portal.Flags.AtTheTank;

/// <summary>First aid at the tank: somebody says what they see, it is stored as a reading so that the flag goes up, and the steps are there at once.</summary>
public sealed class HelpAtTheTank(IDbContextFactory<HatcheryDb> databases, RecordReadings record, TimeProvider time)
{
    public async Task<IResult> ShowAsync(TankView view, Door door, string? sign, Guid? sent, CancellationToken cancel)
    {
        if (sent is null)
        {
            return Page(view, door, new HelpState(TankSigns.Named(sign)));
        }

        await using var db = await databases.CreateDbContextAsync(cancel);
        var reading = await db.Readings.AsNoTracking()
            .SingleOrDefaultAsync(r => r.TankId == view.Place.Tank.Id && r.SenderId == sent && r.State == ReadingState.Accepted, cancel);
        return Page(view, door, new HelpState(TankSigns.Named(sign), SavedAt: reading?.At));
    }

    public async Task<IResult> SendAsync(TankView view, Door door, IFormCollection fields, CancellationToken cancel)
    {
        var form = ReadingFormInput.Read(fields, Guid.CreateVersion7(), view.UsualUnit, door.Words);
        if (TankSigns.Named(fields["sign"]) is not { } sign)
        {
            return Page(view, door, new HelpState(null, Error: door.Words["help.choose"]), StatusCodes.Status422UnprocessableEntity);
        }

        int? dead = sign == TankSign.Dead && int.TryParse(form["dead"], out var count) ? count : null;
        if (sign == TankSign.Dead && dead is not > 0)
        {
            return Page(view, door, new HelpState(sign, Error: door.Words["help.count"]), StatusCodes.Status422UnprocessableEntity);
        }

        var said = new IncomingReading
        {
            SenderId = form.Id,
            TankId = view.Place.Tank.Id,
            At = Shell.Instants.ToMillisecond(time.GetUtcNow().UtcDateTime) - form.Waited,
            Seen = TankSigns.Seen(sign, TankSigns.StageOf(view), dead),
            Source = door.Source,
            EnteredBy = door.EnteredBy,
        };
        var outcome = await record.RecordAsync(said, cancel);
        if (outcome is IntakeOutcome.Rejected(var taken) && taken.ContainsKey("id") && !await IsSameAsync(said, cancel))
        {
            // Gone back, or pressed twice on different signs: each sign is a word of its own.
            said = said with { SenderId = Guid.CreateVersion7() };
            outcome = await record.RecordAsync(said, cancel);
        }

        return outcome is IntakeOutcome.Rejected(var errors) && !errors.ContainsKey("id")
            ? Page(view, door, new HelpState(sign, Error: string.Join(" ", errors.Values.SelectMany(e => e))), StatusCodes.Status422UnprocessableEntity)
            : new SeeOther(door.To("/help", $"sign={TankSigns.NameOf(sign)}&sent={said.SenderId}"));
    }

    private async Task<bool> IsSameAsync(IncomingReading said, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return (await db.Readings.AsNoTracking().SingleAsync(r => r.TankId == said.TankId && r.SenderId == said.SenderId, cancel)).Seen == said.Seen;
    }

    private static RazorComponentResult<HelpPage> Page(TankView view, Door door, HelpState state, int status = 200) =>
        new(new { View = view, Door = door, State = state }) { StatusCode = status };
}

/// <summary>Where somebody stands with asking for help.</summary>
/// <param name="Sign">What they see; null while they have not said.</param>
/// <param name="SavedAt">When their word was read, once it is stored.</param>
public sealed record HelpState(TankSign? Sign, DateTime? SavedAt = null, string? Error = null);

using System.Globalization;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Readings;
using Tankside.Storage;

namespace Tankside.Portal.Flags.AtTheTank;

/// <summary>Shows the form, takes the reading, asks back, and says what the fish are doing.</summary>
public sealed class TodaysReading(IDbContextFactory<HatcheryDb> databases, RecordReadings record, AnswerDoubt answer, TimeProvider time)
{
    public async Task<IResult> ShowAsync(TankView view, Door door, Guid? sent, Guid? ask, CancellationToken cancel, Guid? corrects = null)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (corrects is { } wrong && await CorrectableAsync(db, view, wrong, cancel) is { } old)
        {
            var form = ReadingFormInput.Correcting(old, Guid.CreateVersion7(), view.UsualUnit, door.Words);
            return Page(view, door, ClassStep.Form, form, old);
        }

        var about = sent ?? ask;
        var reading = about is null ? null
            : await db.Readings.AsNoTracking().SingleOrDefaultAsync(r => r.TankId == view.Place.Tank.Id && r.SenderId == about, cancel);
        return reading switch
        {
            { State: ReadingState.Asked, CorrectedBy: null } => Page(view, door, ClassStep.Ask, Blank(view, door), reading),
            { State: ReadingState.Accepted } when sent is not null => Page(view, door, ClassStep.Said, Blank(view, door), reading),
            _ => Page(view, door, ClassStep.Form, Blank(view, door), null),
        };
    }

    /// <summary>
    /// The usual case by the shortest way: a form that is whole and names its scale is stored without a look at the tank's history. Null for
    /// everything else, which then goes the long way; a form that was stored here and comes again there is known by its id.
    /// </summary>
    public async Task<IResult?> SendAtOnceAsync(string code, Door door, IFormCollection fields, SentTogether together)
    {
        var normal = RoomCodes.Normalise(code);
        if (normal.Length != RoomCodes.Length || fields["unit"].ToString() is not ("F" or "C"))
        {
            return null;
        }

        var form = ReadingFormInput.Read(fields, Guid.CreateVersion7(), TemperatureUnit.F, door.Words);
        // One that waited is judged against what was known when it was read, not together with those of this morning.
        if (form.Errors.Count > 0 || form.AsksAboutContradictions || form.Waited > AtOnce)
        {
            return null;
        }

        return await together.SendAsync(normal, Incoming(form, Guid.Empty, Now() - form.Waited, door)) switch
        {
            IntakeOutcome.Accepted or IntakeOutcome.Duplicate => new SeeOther(door.To(query: $"sent={form.Id}")),
            IntakeOutcome.Asked => new SeeOther(door.To(query: $"ask={form.Id}")),
            _ => null,
        };
    }

    public async Task<IResult> SendAsync(TankView view, Door door, IFormCollection fields, CancellationToken cancel)
    {
        var form = ReadingFormInput.Read(fields, Guid.CreateVersion7(), view.UsualUnit, door.Words);
        var old = door.IsAdult && form.Corrects is { } wrong ? await FindAsync(view, wrong, cancel) : null;
        var at = old?.At ?? ReadAt(form, view, door);
        if (form.Errors.Count > 0 || form.AsksAboutContradictions)
        {
            return Page(view, door, ClassStep.Form, form, old, StatusCodes.Status422UnprocessableEntity);
        }

        var outcome = await record.RecordAsync(Incoming(form, view.Place.Tank.Id, at, door), cancel);
        return outcome switch
        {
            IntakeOutcome.Accepted or IntakeOutcome.Duplicate => new SeeOther(door.To(query: $"sent={form.Id}")),
            IntakeOutcome.Asked => new SeeOther(door.To(query: $"ask={form.Id}")),
            IntakeOutcome.Rejected(var errors) => await RefusedAsync(view, door, form, at, errors, cancel),
            _ => throw new InvalidOperationException($"an outcome without an answer: {outcome.GetType().Name}"),
        };
    }

    private static readonly TimeSpan AtOnce = TimeSpan.FromMinutes(1);

    private static IncomingReading Incoming(ReadingFormInput form, Guid tankId, DateTime at, Door door) => new()
    {
        SenderId = form.Id,
        TankId = tankId,
        At = at,
        Seen = form.Seen,
        Water = form.Water,
        Source = door.Source,
        EnteredBy = door.EnteredBy,
        Corrects = door.IsAdult ? form.Corrects : null,
    };

    private DateTime Now() => Shell.Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);

    /// <summary>Somebody says what was meant. The asked reading is kept; the answer is a reading of its own that corrects it.</summary>
    public async Task<IResult> AnswerAsync(TankView view, Door door, IFormCollection fields, CancellationToken cancel)
    {
        if (DoubtReply.Read(fields) is not { } reply)
        {
            return new SeeOther(Guid.TryParse(fields["about"], out var about) ? door.To(query: $"ask={about}") : door.To());
        }

        var outcome = await answer.AnswerAsync(view.Place.Tank, reply, door.Source, door.EnteredBy, door.ConfirmedBy, cancel);
        return outcome switch
        {
            AnswerOutcome.Stored(var id) => new SeeOther(door.To(query: $"sent={id}")),
            AnswerOutcome.AskedAgain(var id) => new SeeOther(door.To(query: $"ask={id}")),
            _ => new SeeOther(door.To(query: $"ask={reply.About}")),
        };
    }

    private async Task<Reading?> FindAsync(TankView view, Guid id, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await CorrectableAsync(db, view, id, cancel);
    }

    private static Task<Reading?> CorrectableAsync(HatcheryDb db, TankView view, Guid id, CancellationToken cancel) =>
        db.Readings.AsNoTracking().SingleOrDefaultAsync(
            r => r.TankId == view.Place.Tank.Id && r.SenderId == id && r.State == ReadingState.Accepted && r.CorrectedBy == null, cancel);

    /// <summary>When it was typed at the tank, or for an adult the time of today that they say it was read.</summary>
    private DateTime ReadAt(ReadingFormInput form, TankView view, Door door)
    {
        var now = Now();
        if (!door.IsAdult || form["readAt"].Length == 0)
        {
            return now - form.Waited;
        }

        var clock = view.Record.Calendar.Clock;
        if (TimeOnly.TryParseExact(form["readAt"], ["HH:mm", "H:mm", "HH:mm:ss"], CultureInfo.InvariantCulture, DateTimeStyles.None, out var read)
            && clock.Utc(clock.Day(now), read) is var at && ObservationRules.AcceptedTime(at, now) is not null)
        {
            return at;
        }

        form.Errors["readAt"] = door.Words["error.time"];
        return now;
    }

    /// <summary>
    /// A form that was sent twice carries the same id: whatever it says now, the first one is stored. One sent after going back and changing
    /// it is another reading and gets an id of its own.
    /// </summary>
    private async Task<IResult> RefusedAsync(
        TankView view, Door door, ReadingFormInput form, DateTime at, IReadOnlyDictionary<string, string[]> errors, CancellationToken cancel)
    {
        if (errors.ContainsKey("id"))
        {
            await using var db = await databases.CreateDbContextAsync(cancel);
            var first = await db.Readings.AsNoTracking().SingleAsync(r => r.TankId == view.Place.Tank.Id && r.SenderId == form.Id, cancel);
            if ((form["again"].Length > 0 || (at - first.At).Duration() < SameSending) && form.Water?.Unit == first.TypedUnit && form.Seen == first.Seen with { WaterC = null } && form.Water?.Text == first.TypedWater)
            {
                return new SeeOther(door.To(query: $"{(first.State == ReadingState.Asked ? "ask" : "sent")}={form.Id}"));
            }

            form.Errors["water"] = door.Words["error.changed"];
            return Page(view, door, ClassStep.Form, form.WithId(Guid.CreateVersion7()), null, StatusCodes.Status422UnprocessableEntity);
        }

        foreach (var (field, messages) in errors)
        {
            form.Errors[field is "reading" or "at" or "corrects" ? "water" : field] = field == form.Water?.Field
                ? door.Words.Of("error.water", form.Water.Text)
                : string.Join(" ", messages);
        }

        return Page(view, door, ClassStep.Form, form, null, StatusCodes.Status422UnprocessableEntity);
    }

    /// <summary>Two arrivals of one form, read within this time of each other, are one sending: a double press, or a retry of the device.</summary>
    private static readonly TimeSpan SameSending = TimeSpan.FromMinutes(10);

    private static ReadingFormInput Blank(TankView view, Door door) => ReadingFormInput.Empty(Guid.CreateVersion7(), view.UsualUnit, door.Words);

    private static IResult Page(TankView view, Door door, ClassStep step, ReadingFormInput form, Reading? reading, int status = 200) =>
        new RazorComponentResult<ClassPage>(new { Door = door, View = view, Step = step, Input = form, Reading = reading })
        {
            StatusCode = status,
        };
}

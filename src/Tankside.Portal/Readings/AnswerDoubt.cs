using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Storage;

namespace Tankside.Portal.Readings;

/// <summary>What somebody answered to a doubtful reading.</summary>
/// <param name="About">Sender's id of the asked reading.</param>
/// <param name="NewId">Id of the answer, so that answering twice is answering once.</param>
/// <param name="Water">The temperature that was meant; null when it was a slip and nobody knows.</param>
public sealed record DoubtReply(Guid About, Guid NewId, TypedWater? Water, DoubtChoice Choice)
{
    /// <summary>Reads the posted answer; null when it makes no sense.</summary>
    public static DoubtReply? Read(IFormCollection fields)
    {
        if (!Guid.TryParse(fields["about"], out var about) || !Guid.TryParse(fields["id"], out var id))
        {
            return null;
        }

        // A number typed without choosing its line is plain enough.
        if (!Enum.TryParse<DoubtChoice>(fields["choice"], ignoreCase: true, out var choice) || !Enum.IsDefined(choice))
        {
            choice = DoubtChoice.Other;
        }

        var unit = fields["unit"] == "F" ? TemperatureUnit.F : TemperatureUnit.C;
        return choice != DoubtChoice.Other ? new DoubtReply(about, id, null, choice)
            : WaterTemperature.TryRead(fields["water"], out var value, out var written)
                ? new DoubtReply(about, id, new TypedWater(fields["water"].ToString().Trim(), value, written ?? unit, "water"), choice)
                : null;
    }
}

/// <summary>The ways to answer.</summary>
public enum DoubtChoice
{
    /// <summary>What we understood is what was meant.</summary>
    Understood,

    /// <summary>It is right as it was typed.</summary>
    AsTyped,

    /// <summary>Another number.</summary>
    Other,

    /// <summary>A slip, and nobody knows the number any more.</summary>
    Withdraw,
}

/// <summary>What became of the answer.</summary>
public abstract record AnswerOutcome
{
    public sealed record Stored(Guid Id) : AnswerOutcome;

    public sealed record AskedAgain(Guid Id) : AnswerOutcome;

    public sealed record Withdrawn : AnswerOutcome;

    /// <summary>It was answered already, or the answer could not be read; nothing changed.</summary>
    public sealed record Refused(string Why) : AnswerOutcome;
}

/// <summary>Takes a person's answer to a doubtful reading. The asked one stays as it was typed; the answer corrects it.</summary>
public sealed class AnswerDoubt(IDbContextFactory<HatcheryDb> databases, RecordReadings record)
{
    public async Task<AnswerOutcome> AnswerAsync(
        Tank tank, DoubtReply reply, ReadingSource source, Guid? enteredBy, string confirmedBy, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var asked = await db.Readings.SingleOrDefaultAsync(r => r.TankId == tank.Id && r.SenderId == reply.About, cancel);
        if (asked is not { State: ReadingState.Asked, CorrectedBy: null })
        {
            return asked?.CorrectedBy == reply.NewId ? new AnswerOutcome.Stored(reply.NewId) : new AnswerOutcome.Refused("This was answered already.");
        }

        if (reply.Choice == DoubtChoice.Withdraw)
        {
            asked.State = ReadingState.Withdrawn;
            await db.SaveChangesAsync(cancel);
            return new AnswerOutcome.Withdrawn();
        }

        var outcome = await record.RecordAsync(
            new IncomingReading
            {
                SenderId = reply.NewId,
                TankId = tank.Id,
                At = asked.At,
                Seen = asked.Seen with { WaterC = null },
                Water = reply.Water ?? await MeantAsync(db, asked, tank, reply.Choice, cancel),
                Corrects = asked.SenderId,
                Source = source,
                EnteredBy = enteredBy,
                ConfirmedBy = reply.Choice == DoubtChoice.Other ? null : confirmedBy,
            },
            cancel);
        return outcome switch
        {
            IntakeOutcome.Accepted or IntakeOutcome.Duplicate => new AnswerOutcome.Stored(reply.NewId),
            IntakeOutcome.Asked => new AnswerOutcome.AskedAgain(reply.NewId),
            IntakeOutcome.Rejected(var errors) => new AnswerOutcome.Refused(string.Join(" ", errors.Values.SelectMany(e => e))),
            _ => throw new InvalidOperationException("an outcome without an answer"),
        };
    }

    /// <summary>The temperature that the question offered, or the one that was typed.</summary>
    private static async Task<TypedWater> MeantAsync(HatcheryDb db, Reading asked, Tank tank, DoubtChoice choice, CancellationToken cancel)
    {
        var unit = asked.TypedUnit ?? TemperatureUnit.C;
        if (choice == DoubtChoice.AsTyped)
        {
            return new TypedWater(asked.TypedWater ?? "", WaterTemperature.FromC(asked.Seen.WaterC!.Value, unit), unit, "water");
        }

        var (celsius, meantUnit) = await UnderstoodAsync(db, asked, tank, cancel);
        var value = Math.Round(WaterTemperature.FromC(celsius, meantUnit), 1);
        return new TypedWater(value.ToString("0.#", CultureInfo.InvariantCulture), value, meantUnit, "water");
    }

    /// <summary>The likeliest meaning of an asked reading, judged again from what is known of the tank.</summary>
    public static async Task<(double Celsius, TemperatureUnit Unit)> UnderstoodAsync(HatcheryDb db, Reading asked, Tank tank, CancellationToken cancel)
    {
        var last = await WithWater(db).Where(r => r.TankId == tank.Id && r.At < asked.At)
            .OrderByDescending(r => r.At).Select(r => new { r.Seen.WaterC, r.At }).FirstOrDefaultAsync(cancel);
        return Understood(asked, tank, last?.WaterC, last?.At);
    }

    /// <summary>The readings by whose water a later one is understood.</summary>
    public static IQueryable<Reading> WithWater(HatcheryDb db) =>
        db.Readings.Where(r => r.State == ReadingState.Accepted && r.CorrectedBy == null && r.Seen.WaterC != null);

    /// <param name="lastC">The water of the reading before it.</param>
    public static (double Celsius, TemperatureUnit Unit) Understood(Reading asked, Tank tank, double? lastC, DateTime? lastAt)
    {
        var unit = asked.TypedUnit ?? TemperatureUnit.C;
        var verdict = WaterTemperature.Judge(
            Math.Round(WaterTemperature.FromC(asked.Seen.WaterC!.Value, unit), 2), unit, asked.At,
            new TankHabits(lastC, lastAt, tank.Litres, tank.Jacket, tank.RoomC));
        return verdict is WaterVerdict.Doubted doubted ? (doubted.Understood, doubted.UnderstoodUnit) : (asked.Seen.WaterC.Value, unit);
    }
}

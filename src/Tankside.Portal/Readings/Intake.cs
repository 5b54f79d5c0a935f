using Tankside.Hatchery.Readings;
using Tankside.Portal.Shell;

namespace Tankside.Portal.Readings;

/// <summary>Decides on one reading: refuse, ask back, or accept. No database, no clock.</summary>
public static class Intake
{
    /// <summary>Readings of before this are a clock that has lost its date, not history.</summary>
    private static readonly DateTime Earliest = new(2000, 1, 1, 0, 0, 0, DateTimeKind.Utc);

    /// <param name="reader">Whom it is said to; English for a logger or where nobody is known.</param>
    public static Dictionary<string, string[]> Refusals(IncomingReading incoming, KnownReadings known, DateTime now, Say? reader = null)
    {
        var say = reader ?? Say.InEnglish;
        var errors = ObservationRules.Check(incoming.Seen).ToDictionary(r => r.Field, r => new[] { Message(r, say) });
        if (incoming.Water is null && incoming.Seen.IsEmpty)
        {
            errors["reading"] = [say["Nothing was seen in this reading: give at least one value."]];
        }

        if (ObservationRules.AcceptedTime(incoming.At, now) is null)
        {
            errors["at"] = [say["This time lies in the future by more than ten minutes. Is the clock right?"]];
        }
        else if (incoming.At < Earliest)
        {
            errors["at"] = [say["This time lies before the year 2000. Is the clock right?"]];
        }

        if (incoming.Corrects is { } corrected && known.WhyNotCorrectable(incoming.TankId, corrected) is { } why)
        {
            errors["corrects"] = [why];
        }

        if (incoming.Water is { } water && WaterTemperature.Judge(water.Value, water.Unit, incoming.At, HabitsUnknown) is WaterVerdict.Refused)
        {
            errors[water.Field] = [say.Of("{0} is not a temperature that water in a tank can have. Is the point in the right place?", water.Text)];
        }

        return errors;
    }

    /// <summary>Believes the reading or asks about it. Call only when <see cref="Refusals"/> finds nothing.</summary>
    public static IntakeOutcome Judge(IncomingReading incoming, TankHabits habits, DateTime now)
    {
        var verdict = incoming.Water is { } water ? WaterTemperature.Judge(water.Value, water.Unit, incoming.At, habits) : null;
        if (verdict is WaterVerdict.Doubted doubted && incoming.ConfirmedBy is null)
        {
            var asked = Store(incoming, now, doubted.AsTyped, ReadingState.Asked, doubted.Doubt);
            return new IntakeOutcome.Asked(
                asked, incoming.Water!.Field, incoming.Water.Text, doubted.Understood, doubted.UnderstoodUnit, doubted.Doubt);
        }

        var celsius = verdict switch
        {
            WaterVerdict.Believed b => b.Celsius,
            WaterVerdict.Doubted d => d.AsTyped,
            _ => (double?)null,
        };
        return new IntakeOutcome.Accepted(Store(incoming, now, celsius, ReadingState.Accepted, null));
    }

    private static Reading Store(IncomingReading incoming, DateTime now, double? celsius, ReadingState state, Doubt? doubt) => new()
    {
        SenderId = incoming.SenderId,
        TankId = incoming.TankId,
        At = Instants.ToMillisecond(ObservationRules.AcceptedTime(incoming.At, now) ?? now),
        ReceivedAt = now,
        Source = incoming.Source,
        EnteredBy = incoming.EnteredBy,
        State = state,
        Seen = incoming.Seen with { WaterC = celsius },
        TypedWater = incoming.Water?.Text,
        TypedUnit = incoming.Water?.Unit,
        DoubtfulField = doubt is null ? null : incoming.Water?.Field,
        Doubt = doubt,
        ConfirmedBy = incoming.ConfirmedBy,
        Corrects = incoming.Corrects,
        ImportId = incoming.ImportId,
        ContentHash = HashOf(incoming),
    };

    /// <summary>Of what was sent, so that a repeat is known again whatever was made of it the first time.</summary>
    public static string HashOf(IncomingReading incoming)
    {
        var sent = incoming.Water is { } w ? WaterTemperature.ToC(w.Value, w.Unit) : (double?)null;
        return ReadingHash.Of(incoming.At, incoming.Seen with { WaterC = sent is { } c ? Math.Round(c, 4) : null }, incoming.Corrects);
    }

    private static readonly TankHabits HabitsUnknown = new(null, null, 208, Science.Heat.Jacket.None, 21);

    private static string Message(FieldRefusal refusal, Say say) => refusal.Rule switch
    {
        FieldRule.TooLong => say.Of("At most {0} characters.", refusal.Most),
        _ => say.Of("Must be between {0} and {1}.", refusal.Least, refusal.Most),
    };
}

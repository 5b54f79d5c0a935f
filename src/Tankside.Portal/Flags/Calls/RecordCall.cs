using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Accounts;
using Tankside.Portal.Readings;

namespace Tankside.Portal.Flags.Calls;

/// <summary>A call about a tank: whether somebody was reached, what they read, what they promised.</summary>
/// <param name="Id">The reading's id: a call that is saved twice is one reading.</param>
/// <param name="Promise">What was promised; null when nothing was.</param>
public sealed record Call(Guid Id, bool Reached, IReadOnlyDictionary<string, string> Told, string? Note, string? Promise, DateTime? Due);

/// <summary>What became of a call.</summary>
public abstract record CallOutcome
{
    /// <param name="Doubt">What the intake asks back about the temperature; null when nothing is doubtful.</param>
    public sealed record Kept(Flag Flag, string? Doubt) : CallOutcome;

    /// <summary>What they said cannot be read; nothing was saved.</summary>
    public sealed record NotRead(IReadOnlyDictionary<string, string> Errors) : CallOutcome;

    /// <summary>The reading, if there was one, is stored; the line of history is not.</summary>
    public sealed record ActFailed(FlagAct Act, ActOutcome Outcome, bool ReadingKept) : CallOutcome;
}

/// <summary>Keeps a call. What was read over the phone is a reading like any other and goes the one way in.</summary>
public sealed class RecordCall(RecordReadings readings, ActOnFlag acts, TimeProvider time)
{
    /// <param name="standing">The tank's troubles that stand in the round, the leading one first: what was promised is promised for all of them.</param>
    public async Task<CallOutcome> KeepAsync(Call call, Tank tank, IReadOnlyList<Flag> standing, CurrentUser by, CancellationToken cancel)
    {
        var told = call.Reached && call.Told.Any(t => t.Key != "unit" && !string.IsNullOrWhiteSpace(t.Value));
        string? doubt = null;
        if (told)
        {
            var (errors, asked) = await ReadingAsync(call, tank, by, cancel);
            if (errors.Count > 0)
            {
                return new CallOutcome.NotRead(errors);
            }

            doubt = asked;
        }

        var deed = DeedOf(call);
        Flag? kept = null;
        foreach (var flag in deed is FlagDeed.Promised or FlagDeed.Waiting ? standing : [standing[0]])
        {
            var act = new FlagAct(flag.Id, flag.Turn, deed, WordsOf(call), Until: call.Promise is null ? null : call.Due);
            switch (await acts.ActAsync(act, by, cancel))
            {
                case ActOutcome.Done(var done):
                    kept ??= done;
                    break;
                case ActOutcome.Refused when await acts.IsSettledAsync(flag.Id, cancel):
                    break; // What they read has settled it meanwhile; the promise stands at the others.
                case var failed:
                    return new CallOutcome.ActFailed(act, failed, told);
            }
        }

        return kept is not null ? new CallOutcome.Kept(kept, doubt) : await OnlyTellAsync(call, standing[0], doubt, told, by, cancel);
    }

    /// <summary>Nothing stands any more for which anything could be promised: the words are kept as those of a call.</summary>
    private async Task<CallOutcome> OnlyTellAsync(Call call, Flag flag, string? doubt, bool told, CurrentUser by, CancellationToken cancel)
    {
        var act = new FlagAct(flag.Id, flag.Turn, call.Reached ? FlagDeed.Called : FlagDeed.NotReached, WordsOf(call));
        return await acts.ActAsync(act, by, cancel) switch
        {
            ActOutcome.Done(var done) => new CallOutcome.Kept(done, doubt),
            var failed => new CallOutcome.ActFailed(act, failed, told),
        };
    }

    private static FlagDeed DeedOf(Call call) => call switch
    {
        { Reached: true, Promise: not null, Due: not null } => FlagDeed.Promised,
        { Reached: true } => FlagDeed.Called,
        { Promise: not null, Due: not null } => FlagDeed.Waiting,
        _ => FlagDeed.NotReached,
    };

    private static string? WordsOf(Call call) => call.Promise is { } promise ? Joined(promise, call.Note) : call.Note;

    private async Task<(IReadOnlyDictionary<string, string> Errors, string? Asked)> ReadingAsync(Call call, Tank tank, CurrentUser by, CancellationToken cancel)
    {
        var form = ReadingFormInput.Read(
            new FormCollection(call.Told.ToDictionary(t => t.Key, t => new Microsoft.Extensions.Primitives.StringValues(t.Value))), call.Id, tank.UsualUnit);
        if (form.Errors.Count > 0)
        {
            return (form.Errors, null);
        }

        var outcome = await readings.RecordAsync(
            new IncomingReading
            {
                SenderId = call.Id,
                TankId = tank.Id,
                At = Shell.Instants.ToMillisecond(time.GetUtcNow().UtcDateTime),
                Seen = form.Seen,
                Water = form.Water,
                Source = ReadingSource.PhoneCall,
                EnteredBy = by.PersonId,
            },
            cancel);
        return outcome switch
        {
            IntakeOutcome.Rejected(var errors) => (errors.ToDictionary(e => e.Key, e => string.Join(" ", e.Value)), null),
            IntakeOutcome.Asked asked => (NoErrors, DoubtWords.Question(asked.Doubt, asked.Typed, form.Water!.Unit, asked.Understood, asked.UnderstoodUnit)),
            _ => (NoErrors, null),
        };
    }

    private static readonly Dictionary<string, string> NoErrors = [];

    private static string Joined(string first, string? second) => string.IsNullOrWhiteSpace(second) ? first : $"{first} ({second.Trim()})";
}

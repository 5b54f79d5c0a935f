using Microsoft.AspNetCore.Http.HttpResults;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Flags.AtTheTank;
using Tankside.Portal.Readings;
using Tankside.Portal.Shell;

namespace Tankside.Portal.Flags.Sweeps;

/// <summary>What was typed on the page of an answer, shown again with what could not be taken.</summary>
public sealed class ReplyInput
{
    public Guid Id { get; init; } = Guid.CreateVersion7();

    public string Water { get; init; } = "";

    public string? Unit { get; init; }

    public string Moving { get; init; } = "";

    public Guid? Tank { get; init; }

    public string Note { get; init; } = "";

    public string? Error { get; set; }

    public static ReplyInput Read(IFormCollection fields) => new()
    {
        Id = Guid.TryParse(fields["id"], out var id) ? id : Guid.CreateVersion7(),
        Water = fields["water"].ToString().Trim(),
        Unit = fields["unit"],
        Moving = fields["moving"].ToString(),
        Tank = Guid.TryParse(fields["tank"], out var tank) ? tank : null,
        Note = fields["note"].ToString().Trim(),
    };
}

/// <summary>
/// Takes an answer. What was pressed is kept first, whatever else is wrong with the form: nobody in a dark building is to lose it over a
/// slip in a number. A temperature goes the way of every reading.
/// </summary>
public sealed class TakeReply(ReplyByLink replies, RecordReadings record, TimeProvider time)
{
    public const int LongestNote = 300;

    public static IResult Page(AskedSchool asked, string secret, ReplyInput input) =>
        new RazorComponentResult<ReplyPage>(new { Asked = asked, Address = $"/{ReplyAddresses.Path}/{secret}", Input = input })
        {
            StatusCode = input.Error is null ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity,
        };

    public async Task<IResult> HandleAsync(AskedSchool asked, string secret, IFormCollection fields, CancellationToken cancel)
    {
        var input = ReplyInput.Read(fields);
        var answer = Enum.TryParse<SweepAnswer>(fields["answer"], out var pressed) && Enum.IsDefined(pressed) ? pressed : (SweepAnswer?)null;
        var looked = input.Water.Length > 0 || input.Moving.Length > 0;
        var note = input.Note is { Length: > 0 and <= LongestNote } words ? words : null;
        if (answer is not null || note is not null)
        {
            await replies.AnswerAsync(asked.Reply.Id, answer, note, cancel);
        }

        input.Error = input.Note.Length > LongestNote ? asked.Words.NoteTooLong
            : looked ? await ReadAsync(asked, input, fields, cancel)
            : answer is null && note is null ? asked.Words.NothingSaid
            : null;
        if (input.Error is null)
        {
            return new SeeOther($"/{ReplyAddresses.Path}/{secret}");
        }

        // What was pressed is kept already and has to be shown so.
        (asked.Reply.Answer, asked.Reply.AnsweredAt) = answer is null ? (asked.Reply.Answer, asked.Reply.AnsweredAt) : (answer, time.GetUtcNow().UtcDateTime);
        return Page(asked, secret, input);
    }

    /// <summary>Null when it is stored; else what to tell.</summary>
    private async Task<string?> ReadAsync(AskedSchool asked, ReplyInput input, IFormCollection fields, CancellationToken cancel)
    {
        var tank = asked.Tanks is [var only] ? only : asked.Tanks.SingleOrDefault(t => t.Id == input.Tank);
        if (tank is null)
        {
            return asked.Words.WhichTank;
        }

        var form = ReadingFormInput.Read(fields, input.Id, tank.Unit);
        if (form.Errors.Count > 0)
        {
            return asked.Words.NotANumber;
        }

        var outcome = await record.RecordAsync(
            new IncomingReading
            {
                SenderId = input.Id,
                TankId = tank.Id,
                At = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime),
                Seen = new Observation { Moving = form.Seen.Moving },
                Water = form.Water,
                Source = ReadingSource.Person,
                EnteredBy = asked.Reply.PersonId,
            },
            cancel);
        return outcome switch
        {
            IntakeOutcome.Asked => asked.Words.Doubtful(input.Water),
            // The form came twice: what it said the first time is stored.
            IntakeOutcome.Rejected(var errors) => errors.ContainsKey("id") ? null : asked.Words.NotANumber,
            _ => null,
        };
    }
}

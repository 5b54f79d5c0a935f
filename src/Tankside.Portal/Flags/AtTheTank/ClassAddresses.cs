using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Readings;
using Tankside.Storage;

namespace Tankside.Portal.Flags.AtTheTank;

/// <summary>
/// The class page of a tank, /t/{room code}: a whole static document without script, cookie or session. The code in the address is the
/// key, so a forged post gains nothing that the address does not already give: no antiforgery token, and no form ever times out.
/// </summary>
public static class ClassAddresses
{
    public static void MapClassPage(this IEndpointRouteBuilder routes)
    {
        var page = routes.MapGroup("/t/{code}").AllowAnonymous().DisableAntiforgery().ExcludeFromDescription();
        page.MapGet("", ShowAsync);
        page.MapPost("", SendAsync);
        page.MapPost("/answer", AnswerAsync);
    }

    private static async Task<IResult> ShowAsync(
        string code, Guid? sent, Guid? ask, HttpContext context, TankByCode tanks, IDbContextFactory<HatcheryDb> databases, CancellationToken cancel)
    {
        if (await OpenAsync(code, context, tanks, cancel) is not { } view)
        {
            return NoSuchCode(context);
        }

        await using var db = await databases.CreateDbContextAsync(cancel);
        var about = sent ?? ask;
        var reading = about is null ? null
            : await db.Readings.AsNoTracking().SingleOrDefaultAsync(r => r.TankId == view.Place.Tank.Id && r.SenderId == about, cancel);
        return reading switch
        {
            { State: ReadingState.Asked, CorrectedBy: null } => Page(code, view, ClassStep.Ask, Blank(view), reading),
            { State: ReadingState.Accepted } when sent is not null => Page(code, view, ClassStep.Said, Blank(view), reading),
            _ => Page(code, view, ClassStep.Form, Blank(view), null),
        };
    }

    private static async Task<IResult> SendAsync(
        string code, IFormCollection fields, HttpContext context, TankByCode tanks, RecordReadings record, TimeProvider time, CancellationToken cancel)
    {
        if (await OpenAsync(code, context, tanks, cancel) is not { } view)
        {
            return NoSuchCode(context);
        }

        var form = ReadingFormInput.Read(fields, Guid.CreateVersion7(), view.Place.Tank.UsualUnit);
        if (form.Errors.Count > 0)
        {
            return Page(code, view, ClassStep.Form, form, null, StatusCodes.Status422UnprocessableEntity);
        }

        var outcome = await record.RecordAsync(Incoming(form, view, time), cancel);
        return outcome switch
        {
            IntakeOutcome.Accepted or IntakeOutcome.Duplicate => SeeOther($"/t/{code}?sent={form.Id}"),
            IntakeOutcome.Asked => SeeOther($"/t/{code}?ask={form.Id}"),
            IntakeOutcome.Rejected(var errors) => Refused(code, view, form, errors),
            _ => throw new InvalidOperationException($"an outcome without an answer: {outcome.GetType().Name}"),
        };
    }

    /// <summary>The class says what it meant. The asked reading is kept; the answer is a reading of its own that corrects it.</summary>
    private static async Task<IResult> AnswerAsync(
        string code, IFormCollection fields, HttpContext context, TankByCode tanks, AnswerDoubt answer, CancellationToken cancel)
    {
        if (await OpenAsync(code, context, tanks, cancel) is not { } view)
        {
            return NoSuchCode(context);
        }

        var reply = DoubtReply.Read(fields);
        if (reply is null)
        {
            return SeeOther($"/t/{code}");
        }

        var outcome = await answer.AnswerAsync(view.Place.Tank, reply, ReadingSource.Class, enteredBy: null, confirmedBy: "class", cancel);
        return outcome switch
        {
            AnswerOutcome.Stored(var id) => SeeOther($"/t/{code}?sent={id}"),
            AnswerOutcome.AskedAgain(var id) => SeeOther($"/t/{code}?ask={id}"),
            _ => SeeOther($"/t/{code}?ask={reply.About}"),
        };
    }

    private static IncomingReading Incoming(ReadingFormInput form, TankView view, TimeProvider time) => new()
    {
        SenderId = form.Id,
        TankId = view.Place.Tank.Id,
        At = Shell.Instants.ToMillisecond(time.GetUtcNow().UtcDateTime),
        Seen = form.Seen,
        Water = form.Water,
        Source = ReadingSource.Class,
    };

    private static IResult Refused(string code, TankView view, ReadingFormInput form, IReadOnlyDictionary<string, string[]> errors)
    {
        foreach (var (field, messages) in errors)
        {
            form.Errors[field is "reading" or "id" or "at" ? "water" : field] = string.Join(" ", messages);
        }

        return Page(code, view, ClassStep.Form, form, null, StatusCodes.Status422UnprocessableEntity);
    }

    private static async Task<TankView?> OpenAsync(string code, HttpContext context, TankByCode tanks, CancellationToken cancel)
    {
        var address = context.Connection.RemoteIpAddress?.ToString() ?? "unknown";
        return context.RequestServices.GetRequiredService<WrongCodes>().IsShutOut(address) ? null : await tanks.FindAsync(code, address, cancel);
    }

    private static IResult NoSuchCode(HttpContext context)
    {
        var shutOut = context.RequestServices.GetRequiredService<WrongCodes>()
            .IsShutOut(context.Connection.RemoteIpAddress?.ToString() ?? "unknown");
        return new RazorComponentResult<NoSuchCodePage>(new { ShutOut = shutOut })
        {
            StatusCode = shutOut ? StatusCodes.Status429TooManyRequests : StatusCodes.Status404NotFound,
        };
    }

    private static ReadingFormInput Blank(TankView view) => ReadingFormInput.Empty(Guid.CreateVersion7(), view.Place.Tank.UsualUnit);

    private static IResult Page(string code, TankView view, ClassStep step, ReadingFormInput form, Reading? reading, int status = 200) =>
        new RazorComponentResult<ClassPage>(new { RoomCode = code, View = view, Step = step, Input = form, Reading = reading })
        {
            StatusCode = status,
        };

    private static IResult SeeOther(string to) => new SeeOtherResult(to);

    /// <summary>303: the browser fetches the next page with GET, and a reload does not send the form again.</summary>
    private sealed class SeeOtherResult(string to) : IResult
    {
        public Task ExecuteAsync(HttpContext httpContext)
        {
            httpContext.Response.StatusCode = StatusCodes.Status303SeeOther;
            httpContext.Response.Headers.Location = to;
            return Task.CompletedTask;
        }
    }
}

/// <summary>Where a class stands with its reading.</summary>
public enum ClassStep
{
    Form,
    Ask,
    Said,
}

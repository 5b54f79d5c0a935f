using Microsoft.AspNetCore.Components;
using Tankside.Portal.Accounts;

namespace Tankside.Portal.Flags.Sweeps;

public sealed partial class SweepPage(SweepBoard board, MessageTeachers message, EndSweep end, TellAnswer tell)
{
    private SweepNow? now;

    [Parameter]
    public Guid SweepId { get; set; }

    private CurrentUser Asking => CurrentUser.From(Http.User)!;

    private TimeWords Times => new(now!.Message.Clock, now.At);

    private string Asked => (now!.Letters, now.NotAsked) switch
    {
        ({ Written: 0 }, 0) => "No teacher belongs to these schools yet.",
        ({ Written: 0 }, _) => "Nobody has been written to yet.",
        ({ FirstAt: { } at } letters, _) => $"{CountWords.Count(letters.Written, "teacher was", "teachers were")} written to, {Times.When(at)}{Fate(letters)}.",
        _ => "",
    };

    private string Press => (now!.Letters.Written, now.NotAsked) switch
    {
        (0, 1) => "Message its teacher",
        (0, var n) => $"Message all {n} teachers",
        (_, var n) => $"Message the {n} not yet written to",
    };

    protected override async Task OnInitializedAsync()
    {
        now = await board.LoadAsync(Asking.ProgrammeId, SweepId, Http.RequestAborted);
        if (now is null)
        {
            Navigation.NotFound();
        }
    }

    private static string Fate(SweepLetters letters)
    {
        string?[] parts =
        [
            letters.Sent > 0 ? $"{letters.Sent} sent" : null,
            letters.Waiting > 0 ? $"{letters.Waiting} on the way" : null,
            letters.Quiet > 0 ? $"{letters.Quiet} {(letters.Quiet == 1 ? "waits" : "wait")} for quiet hours to end: text or ring" : null,
            letters.Failed > 0 ? $"{letters.Failed} may not have arrived: text or ring them" : null,
        ];
        return $": {string.Join(", ", parts.OfType<string>())}";
    }

    private async Task MessageAsync() => Back("message", await message.HandleAsync(Asking, SweepId, Http.RequestAborted) switch
    {
        null => new Notice(false, "This mark is gone."),
        0 => new Notice(true, "Everybody has been written to already."),
        1 => new Notice(true, "1 teacher is being written to. The answer shows here as it comes."),
        var n => new Notice(true, $"{n} teachers are being written to. Their answers show here as they come."),
    });

    private async Task EndAsync(SweepDeed deed) =>
        Back("end", await end.HandleAsync(Asking, SweepId, deed, Http.RequestAborted) ?? new Notice(false, "This mark is gone."));

    private async Task TellAsync()
    {
        if (await tell.HandleAsync(Asking, SweepId, Input, Refuse, Http.RequestAborted) is { } notice)
        {
            Back("notice", notice);
        }
    }

    private void Back(string part, Notice notice) => Leave($"/sweeps/{SweepId}#{(notice.Good ? "notice" : part)}", notice);
}

using Microsoft.AspNetCore.Components;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.Accounts.Mail;
using Tankside.Portal.Flags;
using Tankside.Portal.People;

namespace Tankside.Portal.Digests;

/// <summary>What became of the mails about the round, for the lead.</summary>
public sealed partial class LettersPage(SentLetters sent, ProgrammePeople people, CarriedNotice notices, NavigationManager navigation, TimeProvider time) : ComponentBase
{
    private IReadOnlyList<ListedLetter> letters = [];
    private IReadOnlyList<RefusedReader> refused = [];
    private TimeWords words = null!;
    private Notice? notice;

    [CascadingParameter]
    private HttpContext Http { get; set; } = null!;

    /// <summary>The letter that is to be sent again.</summary>
    [SupplyParameterFromForm(FormName = "again")]
    public Guid? Letter { get; set; }

    private CurrentUser Asking => CurrentUser.From(Http.User)!;

    private string Answer => (letters.Count(l => l.State == LetterState.Unsure), letters.Count(IsGivenUp), letters.Count(l => l.State == LetterState.Waiting)) switch
    {
        (0, 0, 0) => letters.Count == 0 ? "No letter has been written." : Bounced > 0 ? $"{Letters(Bounced)} bounced; the others went out." : "Every letter went out.",
        (0, 0, var waits) => $"{Letters(waits)} {(waits == 1 ? "waits" : "wait")}; the others went out.",
        (0, var lost, _) => $"{Letters(lost)} could not be sent.",
        (var unsure, 0, _) => $"Of {Letters(unsure)} nobody can say whether {(unsure == 1 ? "it" : "they")} went.",
        var (unsure, lost, _) => $"{Letters(lost)} could not be sent; of {Letters(unsure)} nobody can say.",
    };

    private int Bounced => letters.Count(l => l.State == LetterState.Bounced);

    /// <summary>Loads everything before the first rendering, so that the form is there when it is sent.</summary>
    public override async Task SetParametersAsync(ParameterView parameters)
    {
        parameters.SetParameterProperties(this);
        if (words is null)
        {
            notice = notices.Take(Http);
            var programme = await people.ProgrammeAsync(Asking, Http.RequestAborted);
            words = new TimeWords(ProgrammeClock.Of(programme.TimeZone), time.GetUtcNow().UtcDateTime);
            letters = await sent.ListAsync(Asking, Http.RequestAborted);
            refused = await sent.RefusedAsync(Asking, Http.RequestAborted);
        }

        await base.SetParametersAsync(ParameterView.Empty);
    }

    private async Task SendAgainAsync()
    {
        notices.Carry(Http, await sent.SendAgainAsync(Asking, Letter ?? Guid.Empty, Http.RequestAborted));
        navigation.NavigateTo("/letters#notice");
    }

    private string When(DateTime utc) => words.When(utc);

    private string Became(ListedLetter letter) => letter.State switch
    {
        LetterState.Waiting => $"waits until {When(letter.NotBefore)}{(letter.Trouble is { } trouble ? $". {trouble}" : "")}",
        LetterState.Sending => "is being sent",
        LetterState.Sent => $"sent {When(letter.SentAt!.Value)}",
        LetterState.KeptAsFile => "kept as a file on the server: no mail server is set",
        LetterState.Unsure => $"Unsure. {letter.Trouble} Ask whether it came before you send it again.",
        LetterState.Bounced => $"Bounced. {letter.Trouble} Ask for another address before you send it again.",
        LetterState.GivenUp => letter.Trouble ?? "not sent",
    };

    private static bool IsGivenUp(ListedLetter letter) =>
        letter.State == LetterState.GivenUp && letter.Trouble?.StartsWith(LetterTroubles.NotNeeded, StringComparison.Ordinal) != true;

    private static string Letters(int count) => CountWords.Count(count, "letter", "letters");
}

using Microsoft.AspNetCore.Components;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;

namespace Tankside.Portal.Accounts.OwnSignIn;

/// <summary>The sessions that are open, and a new password.</summary>
public sealed partial class HowYouSignInPage
{
    private Programme programme = null!;
    private IReadOnlyList<OpenSession> sessions = [];
    private Guid? here;
    private string? sessionsRefused, passwordRefused;

    /// <summary>Which session to end; "others" for all but this one.</summary>
    [SupplyParameterFromForm(FormName = "sessions")]
    public string? Session { get; set; }

    [SupplyParameterFromForm(FormName = "sessions")]
    public string? SessionsPassword { get; set; }

    [SupplyParameterFromForm(FormName = "password")]
    public string? PasswordNow { get; set; }

    [SupplyParameterFromForm(FormName = "password")]
    public string? PasswordNext { get; set; }

    [SupplyParameterFromForm(FormName = "password")]
    public string? PasswordAgain { get; set; }

    private async Task LoadSessionsAsync()
    {
        var id = CurrentUser.ProgrammeOf(Http.User);
        programme = await db.Programmes.AsNoTracking().SingleAsync(p => p.Id == id, Http.RequestAborted);
        here = Sessions.IdOf(Http.User);
        sessions = [.. (await open.OfAsync(person, Http.RequestAborted)).OrderByDescending(s => s.Id == here)];
    }

    private async Task EndSessionsAsync()
    {
        if (!await signIn.KnowsPasswordAsync(person, SessionsPassword ?? ""))
        {
            sessionsRefused = Say["This is not your password. After eight wrong tries an account rests for ten minutes. Nothing was changed."];
            return;
        }

        var ended = await open.EndAsync(person.Id, [.. sessions.Where(s => s.Id != here && (Session == "others" || s.Id.ToString() == Session)).Select(s => s.Id)]);
        Leave(Here, ended == 0
            ? new Notice(true, Say["There was nothing left to end."])
            : new Notice(true, Say.Count(ended, "{0} session is ended. What is open there stops within a minute.", "{0} sessions are ended. What is open there stops within a minute.")));
    }

    private async Task ChangePasswordAsync()
    {
        passwordRefused = !await signIn.KnowsPasswordAsync(person, PasswordNow ?? "") ? Say["This is not your password. After eight wrong tries an account rests for ten minutes. Nothing was changed."]
            : PasswordNext is not { Length: >= NewPassword.Shortest and <= NewPassword.Longest } ? Say["This is too short or too long: 12 to 200 characters, please."]
            : PasswordNext != PasswordAgain ? Say["The two passwords differ. Please type both again."]
            : null;
        if (passwordRefused is not null)
        {
            return;
        }

        var changed = await people.ChangePasswordAsync(person, PasswordNow!, PasswordNext!);
        if (!changed.Succeeded)
        {
            NewPassword.Tell(changed, (_, why) => passwordRefused = Say.Told(why));
            return;
        }

        await signIn.RefreshSignInAsync(person);
        Leave(Here, new Notice(true, passkeys.Count == 0
            ? Say["Your new password is set. Wherever else you were signed in, you are asked for it within a minute."]
            : Say.Count(passkeys.Count, "Your new password is set. Wherever else you were signed in, you are asked for it within a minute. {0} passkey lets in as before: look whether it is yours.", "Your new password is set. Wherever else you were signed in, you are asked for it within a minute. {0} passkeys let in as before: look whether all are yours.")));
    }

    private string Device(OpenSession session) => (session.Browser, session.System) switch
    {
        (null, null) => Say["a browser that does not say what it is"],
        (null, var system) => system,
        (var browser, null) => browser,
        var (browser, system) => Say.Of("{0} on {1}", browser, system),
    };
}

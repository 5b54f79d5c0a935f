using System.Globalization;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Identity;
using Tankside.Storage;
using Tankside.Storage.People;

namespace Tankside.Portal.Accounts.OwnSignIn;

/// <summary>Everybody's own ways in: the second step and the passkeys.</summary>
public sealed partial class HowYouSignInPage(UserManager<Person> people, HouseSignIn signIn, TwoSteps steps, Passkeys store, OpenSessions open, HatcheryDb db) : SheetPage<HowYouSignInPage.PasswordForm>
{
    private const string Here = "/me/sign-in#notice";

    private Person person = null!;
    private int codesLeft;
    private IReadOnlyList<OwnPasskey> passkeys = [];
    private string? passkeyRefused, removeRefused, demandedBy;

    /// <summary>Which of the buttons of the second step was pressed.</summary>
    [SupplyParameterFromForm(FormName = "steps")]
    public string? Deed { get; set; }

    [SupplyParameterFromForm(FormName = "remove")]
    public string? Passkey { get; set; }

    [SupplyParameterFromForm(FormName = "remove")]
    public string? RemovePassword { get; set; }

    [SupplyParameterFromForm(FormName = "add")]
    public string? Credential { get; set; }

    [SupplyParameterFromForm(FormName = "add")]
    public string? PasskeyName { get; set; }

    /// <summary>True for somebody to whom nothing else is open yet.</summary>
    private bool owes;

    private string Answer => owes ? Say["One thing before you go on: a second step."] : (person.TwoFactorEnabled, passkeys.Count) switch
    {
        (false, 0) => Say["You sign in with your password alone."],
        (true, 0) => Say["You sign in with your password and a code."],
        (false, _) => Say["You sign in with a passkey, or with your password alone."],
        (true, _) => Say["You sign in with a passkey, or with your password and a code."],
    };

    protected override async Task LoadAsync()
    {
        person = (await people.GetUserAsync(Http.User))!;
        codesLeft = person.TwoFactorEnabled ? await steps.CodesLeftAsync(person) : 0;
        passkeys = await store.OfAsync(person.Id, Http.RequestAborted);
        demandedBy = await OwedStep.DemandedByAsync(db, person);
        await LoadSessionsAsync();
        owes = OwedStep.IsBy(Http.User) && !person.TwoFactorEnabled && passkeys.Count == 0;
    }

    private async Task ChangeStepsAsync()
    {
        if (!await signIn.KnowsPasswordAsync(person, Input.Password ?? ""))
        {
            Refuse(nameof(Input.Password), Say["This is not your password. After eight wrong tries an account rests for ten minutes. Nothing was changed."]);
            return;
        }

        switch (Deed)
        {
            case "codes":
                Leave(CodesPage.Address, CodesPage.Told(Say, await steps.NewCodesAsync(person)));
                break;
            case "off" when demandedBy is not null && passkeys.Count == 0:
                Refuse(nameof(Input.Password), Say.Of("{0} asks a second step of you, and this is your only one. Add a passkey first; for a new phone you can also ask your programme lead. Nothing was changed.", demandedBy));
                break;
            case "off":
                await steps.SwitchOffAsync(person, passkeysToo: false);
                await signIn.RefreshSignInAsync(person);
                Leave(Here, new Notice(true, Say["The second step is off. Wherever else you are signed in, you will be asked for the password within a minute."]));
                break;
        }
    }

    private async Task AddAsync()
    {
        passkeyRefused = await store.AddAsync(person, Credential, PasskeyName, Http.RequestAborted);
        if (passkeyRefused is null)
        {
            // It may be the second step that was still owed; the session is then opened to the rest.
            await signIn.RefreshSignInAsync(person);
            Leave(Here, new Notice(true, Say["The passkey is added. Next time, choose “Sign in with a passkey”."]));
        }
    }

    private async Task RemoveAsync()
    {
        if (!await signIn.KnowsPasswordAsync(person, RemovePassword ?? ""))
        {
            removeRefused = Say["This is not your password. After eight wrong tries an account rests for ten minutes. Nothing was changed."];
            return;
        }

        if (demandedBy is not null && !person.TwoFactorEnabled && passkeys is [var only] && only.Id == Passkey)
        {
            Leave(Here, new Notice(false, Say.Of("{0} asks a second step of you, and this passkey is your only one. Switch on the codes of a device first. Nothing was changed.", demandedBy)));
            return;
        }

        if (!await store.RemoveAsync(person, Passkey, Http.RequestAborted))
        {
            Leave(Here, new Notice(false, Say["There is no such passkey any more."]));
            return;
        }

        await signIn.RefreshSignInAsync(person);
        Leave(Here, new Notice(true, Say["The passkey is removed and lets nobody in. Delete it on the device too, or it goes on being offered there."]));
    }

    /// <summary>The day at Greenwich: a passkey belongs to no programme, so it has no local day.</summary>
    private string Day(DateTime utc) => Say.IsSpanish ? utc.ToString("d 'de' MMMM 'de' yyyy", Say.Culture) : utc.ToString("d MMMM yyyy", CultureInfo.InvariantCulture);

    public sealed class PasswordForm
    {
        public string? Password { get; set; }
    }
}

using System.Globalization;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Identity;
using Tankside.Storage.People;

namespace Tankside.Portal.Accounts.OwnSignIn;

/// <summary>Everybody's own ways in: the second step and the passkeys.</summary>
public sealed partial class HowYouSignInPage(UserManager<Person> people, HouseSignIn signIn, TwoSteps steps, Passkeys store) : SheetPage<HowYouSignInPage.PasswordForm>
{
    private const string Here = "/me/sign-in#notice";

    private Person person = null!;
    private int codesLeft;
    private IReadOnlyList<OwnPasskey> passkeys = [];
    private string? passkeyRefused;

    /// <summary>Which of the buttons of the second step was pressed.</summary>
    [SupplyParameterFromForm(FormName = "steps")]
    public string? Deed { get; set; }

    [SupplyParameterFromForm(FormName = "remove")]
    public string? Passkey { get; set; }

    [SupplyParameterFromForm(FormName = "add")]
    public string? Credential { get; set; }

    [SupplyParameterFromForm(FormName = "add")]
    public string? PasskeyName { get; set; }

    private string Answer => (person.TwoFactorEnabled, passkeys.Count) switch
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
            case "off":
                await steps.SwitchOffAsync(person);
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
            Leave(Here, new Notice(true, Say["The passkey is added. Next time, choose “Sign in with a passkey”."]));
        }
    }

    private async Task RemoveAsync()
    {
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

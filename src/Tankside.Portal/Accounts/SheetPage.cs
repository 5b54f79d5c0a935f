using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Forms;

namespace Tankside.Portal.Accounts;

/// <summary>A page around one form that works without script: what was typed comes back with what is wrong beside it.</summary>
public abstract class SheetPage<TForm> : ComponentBase
    where TForm : class, new()
{
    private ValidationMessageStore refusals = null!;

    [CascadingParameter]
    protected HttpContext Http { get; set; } = null!;

    [SupplyParameterFromForm]
    public TForm Input { get; set; } = null!;

    [Inject]
    protected NavigationManager Navigation { get; set; } = null!;

    [Inject]
    protected CarriedNotice Notices { get; set; } = null!;

    protected EditContext? Edit { get; private set; }

    protected Notice? Notice { get; set; }

    protected bool IsPost => HttpMethods.IsPost(Http.Request.Method);

    /// <summary>Whether this of the page's forms was sent.</summary>
    protected bool IsOf(string form) => IsPost && Http.Request.HasFormContentType && Http.Request.Form["_handler"] == form;

    /// <summary>
    /// Loads everything before the first rendering. The usual way would render once while the database is still asked, and a form sent
    /// to a page half loaded might meet the wrong one.
    /// </summary>
    public override async Task SetParametersAsync(ParameterView parameters)
    {
        parameters.SetParameterProperties(this);
        if (Edit is null)
        {
            Fill(Input ?? new TForm());
            Notice = Notices.Take(Http);
            await LoadAsync();
        }

        await base.SetParametersAsync(ParameterView.Empty);
    }

    /// <summary>What the page has to know before it is shown.</summary>
    protected virtual Task LoadAsync() => Task.CompletedTask;

    /// <summary>Shows the form with what is known already; only while loading.</summary>
    protected void Fill(TForm form)
    {
        Input = form;
        Edit = new EditContext(form);
        refusals = new ValidationMessageStore(Edit);
    }

    /// <summary>Says at a field why the form was not taken.</summary>
    protected void Refuse(string field, string why)
    {
        refusals.Add(Edit!.Field(field), why);
        Edit.NotifyValidationStateChanged();
    }

    /// <summary>Ends the form: the notice is shown at <paramref name="address"/>, and loading that page again repeats nothing.</summary>
    protected void Leave(string address, Notice notice, bool signedOut = false)
    {
        Notices.Carry(Http, notice, signedOut);
        Navigation.NavigateTo(address);
    }
}

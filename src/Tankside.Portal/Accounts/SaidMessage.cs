using System.Linq.Expressions;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Forms;
using Microsoft.AspNetCore.Components.Rendering;
using Tankside.Portal.Shell;

namespace Tankside.Portal.Accounts;

/// <summary>What is wrong with a field, in the reader's language: rules and refusals are written in English.</summary>
public sealed class SaidMessage<T> : ValidationMessage<T>
{
    [CascadingParameter]
    private EditContext Edit { get; set; } = null!;

    [Inject]
    private Say Say { get; set; } = null!;

    [Parameter, EditorRequired]
    public required Expression<Func<T>> Of { get; set; }

    protected override void OnParametersSet()
    {
        For = Of;
        base.OnParametersSet();
    }

    protected override void BuildRenderTree(RenderTreeBuilder builder)
    {
        foreach (var why in Edit.GetValidationMessages(FieldIdentifier.Create(Of)))
        {
            builder.OpenElement(0, "div");
            builder.AddAttribute(1, "class", "validation-message");
            builder.AddContent(2, Say.Told(why));
            builder.CloseElement();
        }
    }
}

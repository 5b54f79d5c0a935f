using Microsoft.AspNetCore.Components;
using MudBlazor;
using Tankside.Hatchery.People;
using Tankside.Portal.People;

namespace Tankside.Portal.Flags.Calls;

/// <summary>A call in two taps: reached or not, what they read, what they promise.</summary>
public sealed partial class CallDialog
{
    private static readonly (string Field, string Question)[] Asked =
    [
        ("moving", "Is the water moving?"),
        ("bubbles", "Are there bubbles?"),
        ("chillerRunning", "Does the chiller run?"),
        ("iceOnCoil", "Is there ice on the coil?"),
        ("gasping", "Are fish at the surface, gasping?"),
    ];

    private static readonly (string Value, string Word)[] YesNo = [("", "not asked"), ("true", "yes"), ("false", "no")];

    private readonly Guid id = Guid.CreateVersion7();
    private readonly Dictionary<string, string> told = Asked.ToDictionary(a => a.Field, _ => "");
    private IReadOnlyDictionary<string, string> errors = new Dictionary<string, string>();
    private KeptText words = null!;
    private bool reached = true, saving;
    private string note = "", promise = "";
    private DateTime? due;

    [CascadingParameter]
    private IMudDialogInstance Dialog { get; set; } = null!;

    [Parameter, EditorRequired]
    public required RoundCall Call { get; set; }

    [Parameter, EditorRequired]
    public required IReadOnlyList<SchoolAdult> Adults { get; set; }

    /// <summary>Saves the call; the dialog stays open while what was told cannot be read.</summary>
    [Parameter, EditorRequired]
    public required Func<Call, Task<CallOutcome>> Save { get; set; }

    [Parameter]
    public Guid Person { get; set; }

    [Parameter]
    public DateTime Now { get; set; }

    protected override void OnInitialized()
    {
        told["water"] = "";
        told["unit"] = Call.Place.Tank.UsualUnit == TemperatureUnit.F ? "F" : "C";
    }

    private string Water
    {
        get => told["water"];
        set => told["water"] = value;
    }

    private string Unit
    {
        get => told["unit"];
        set => told["unit"] = value;
    }

    private RenderFragment Error(string field) => builder =>
    {
        if (errors.TryGetValue(field, out var text))
        {
            builder.OpenElement(0, "p");
            builder.AddAttribute(1, "class", "error");
            builder.AddAttribute(2, "role", "alert");
            builder.AddContent(3, text);
            builder.CloseElement();
        }
    };

    /// <summary>Somebody was reached, and nothing of it is written down.</summary>
    private bool Nothing => reached && told.All(t => t.Key == "unit" || t.Value.Trim().Length == 0) && ActOnFlag.Text(note) is null && promise.Trim().Length == 0;

    /// <summary>Of the draft of its words.</summary>
    public static string KeyOf(RoundCall call) => $"call {call.Leading.Flag.Id}";

    private async Task KeepAsync()
    {
        saving = true;
        var promised = promise.Trim().Length > 0 ? promise.Trim() : null;
        var outcome = await Save(new Call(id, reached, told, ActOnFlag.Text(note), promised, promised is null ? null : due));
        saving = false;
        if (outcome is CallOutcome.NotRead(var wrong))
        {
            errors = wrong;
            return;
        }

        await words.HandOverAsync();
        Dialog.Close(DialogResult.Ok(outcome));
    }
}

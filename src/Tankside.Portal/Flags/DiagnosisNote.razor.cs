using Microsoft.AspNetCore.Components;
using Tankside.Hatchery.Flags;

namespace Tankside.Portal.Flags;

/// <summary>What the trouble looks like and what to ask next; each answer is weighed at once.</summary>
public sealed partial class DiagnosisNote
{
    private readonly Dictionary<NextQuestion, bool> told = [];

    private Guid tank;

    [Parameter, EditorRequired]
    public required TankRecord Record { get; set; }

    [Parameter]
    public DateTime Now { get; set; }

    private Diagnosis? Diagnosis { get; set; }

    /// <summary>Another call begins without what the last one was told.</summary>
    protected override void OnParametersSet()
    {
        if (tank != Record.Tank.Id)
        {
            tank = Record.Tank.Id;
            told.Clear();
        }

        Weigh();
    }

    private void Weigh() => Diagnosis = Record.Lot is null ? null : Hatchery.Flags.Diagnosis.Of(new Situation(Record, Now), told);

    private void Tell(NextQuestion question, bool yes)
    {
        told[question] = yes;
        Weigh();
    }

    private void Forget()
    {
        told.Clear();
        Weigh();
    }
}

using System.Security.Cryptography;
using System.Text;
using Microsoft.AspNetCore.Components;
using Tankside.Hatchery.Readings.SetPoints;
using Tankside.Portal.Accounts;

namespace Tankside.Portal.Flags.Steering;

public sealed class KeepPlansForm
{
    /// <summary>A digest of the plans that were on the screen.</summary>
    public string? Seen { get; set; }
}

/// <summary>One more look at the plans of a lot or a school before they are all kept.</summary>
public sealed partial class KeepPlansPage(PlanTanks plans, PlanTank keep) : SheetPage<KeepPlansForm>
{
    private List<PlannedTank> better = [];
    private DateTime at;
    private TimeWords? time;

    [SupplyParameterFromQuery(Name = "lot")]
    private string? Lot { get; set; }

    [SupplyParameterFromQuery(Name = "school")]
    private string? School { get; set; }

    private CurrentUser Asking => CurrentUser.From(Http.User)!;

    private string Query => $"?lot={Uri.EscapeDataString(Lot ?? "")}&school={Uri.EscapeDataString(School ?? "")}";

    private string Self => "/calendar/plan/keep" + Query;

    private string Back => "/calendar/plan" + Query;

    private string Headline => better.Count switch
    {
        0 => $"No plan is left to keep for {PlanWords.Of(Lot, School)}.",
        1 => "One tank without a plan is better off with the dial turned. Keep its plan?",
        var n => $"{n} tanks without a plan are better off with the dial turned. Keep their plans?",
    };

    private string Seen => Convert.ToHexString(SHA256.HashData(Encoding.UTF8.GetBytes(
        string.Join('\n', better.Select(b => $"{b.Glance.Code} {StoredSteps.Write(((SetPointsFound)b.Answer).Best.Steps)}")))));

    protected override async Task LoadAsync()
    {
        (at, var tanks, var kept) = await plans.LoadAsync(Asking, Lot, School, Http.RequestAborted);
        time = tanks.Count > 0 ? new TimeWords(tanks[0].Place.Calendar.Clock, at) : null;
        better = [.. tanks.Select(t => PlanTanks.Plan(t, kept.GetValueOrDefault(t.Place.Tank.Id), at)).Where(PlanTanks.IsToKeep)];
    }

    private async Task KeepAsync()
    {
        if (Seen != Input.Seen)
        {
            Leave(Self + "#notice", new Notice(false, "Readings have come since these plans were shown, and they have changed. Nothing was kept; please look at the new ones."));
            return;
        }

        var refused = new List<string>();
        foreach (var one in better)
        {
            var course = ((SetPointsFound)one.Answer).Best;
            if (!await keep.KeepAsync(one.Glance, at, Asking, SetPointGoal.ClearOfClosedDays, null, course, Http.RequestAborted))
            {
                refused.Add(one.Glance.Code);
            }
        }

        var kept = CountWords.Count(better.Count - refused.Count, "plan is", "plans are");
        Leave(Self + "#notice", refused.Count == 0
            ? new Notice(true, $"{kept} kept. Each tank's page says every day where the dial should stand.")
            : new Notice(false, $"{kept} kept. Not kept, because somebody else changed the tank meanwhile: {string.Join(", ", refused)}."));
    }
}

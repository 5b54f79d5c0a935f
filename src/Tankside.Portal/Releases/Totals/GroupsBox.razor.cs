using System.Globalization;
using Microsoft.AspNetCore.Components;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Shell.Charts;

namespace Tankside.Portal.Releases.Totals;

public sealed partial class GroupsBox : ComponentBase
{
    /// <summary>A taller picture is not looked at.</summary>
    private const int MostDrawn = 40;

    private static readonly string[] Names = ["released", "still in tanks", "died", "sampled", "unaccounted"];

    [Parameter, EditorRequired]
    public required string Title { get; set; }

    /// <summary>What the first column holds.</summary>
    [Parameter, EditorRequired]
    public required string First { get; set; }

    [Parameter, EditorRequired]
    public required IReadOnlyList<TankGroup> Groups { get; set; }

    [Parameter]
    public string? Lead { get; set; }

    private IReadOnlyList<ShareRow> Rows => [.. Groups.Take(MostDrawn).Select(Row)];

    private string Label => $"{Title}: " + string.Join("; ", Groups.Take(MostDrawn).Select(g => $"{Named(g)} {Said(g)}"));

    private static ShareRow Row(TankGroup group)
    {
        var b = group.Balance;
        var came = Math.Max(1.0, b.In - b.TransferredOut);
        var whole = group.Pooled.Finished == group.Pooled.Supplied ? group.Pooled.Rate : Survival.Unknown;
        return new ShareRow(
            Named(group), Said(group), [b.Released / came, b.StillInTank / came, Died(b) / came, b.Sampled / came, Math.Max(0, b.Unaccounted) / came],
            whole.Low / 100, whole.High / 100);
    }

    private static string Named(TankGroup group) => group.Name.Length == 0 ? "none" : group.Name;

    private static string Said(TankGroup group) => group.Balance switch
    {
        { In: 0 } => "nothing came",
        var b when b.In - b.TransferredOut <= 0 => "all moved on",
        { Unaccounted: < 0 } b => $"{Figures.Of(b.Released)} released, {Figures.Of(-b.Unaccounted)} more than came",
        { } b => $"{Figures.Of(b.Released)} of {Figures.Of(b.In - b.TransferredOut)} released",
    };

    private static int Died(TankBalance b) => b.DeadOnArrival + b.EggLosses + b.AlevinLosses + b.FryLosses + b.PutDown;

    private static string Rate(PooledSurvival pooled) => pooled.Rate.Percent is null
        ? "not known yet"
        : Figures.Percent(pooled.Rate.Percent) + (pooled.Rate.Low is null ? "" : string.Create(CultureInfo.InvariantCulture, $" ({pooled.Rate.Low:0.0} to {pooled.Rate.High:0.0})"));

    private static string Bounds(PooledSurvival pooled) => pooled switch
    {
        _ when pooled.Finished == pooled.Supplied || pooled.IfRestLost is null => "",
        { IfRestAverage: null } => $"is lost {Figures.Percent(pooled.IfRestLost)}",
        _ => $"is lost {Figures.Percent(pooled.IfRestLost)}, is alike {Figures.Percent(pooled.IfRestAverage)}",
    };
}

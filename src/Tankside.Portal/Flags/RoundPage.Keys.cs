using Microsoft.AspNetCore.Components.Web;
using Microsoft.JSInterop;
using Tankside.Hatchery.Flags;

namespace Tankside.Portal.Flags;

/// <summary>The round by keyboard: arrows move, and each act has its letter.</summary>
public sealed partial class RoundPage
{
    private async Task OnKeyAsync(KeyboardEventArgs key)
    {
        if (key.CtrlKey || key.AltKey || key.MetaKey)
        {
            return;
        }

        List<RoundCall> rows = [.. round!.Calls, .. round.Resting];
        var at = rows.FindIndex(c => c.Place.Tank.Id == openTank);
        switch (key.Key)
        {
            case "ArrowDown" or "j" when rows.Count > 0:
                await StepToAsync(rows[Math.Min(at + 1, rows.Count - 1)]);
                break;
            case "ArrowUp" or "k" when rows.Count > 0:
                await StepToAsync(rows[Math.Max(at - 1, 0)]);
                break;
            case "Escape":
                CloseDetail();
                break;
            case "u" when undo is not null:
                await UndoAsync();
                break;
            default:
                if (OpenCall is { } call)
                {
                    await ActByKeyAsync(key.Key, call);
                }

                break;
        }
    }

    private Task ActByKeyAsync(string key, RoundCall call) => key switch
    {
        "t" => ActAsync(call.Leading.Flag.TakenBy is null ? FlagDeed.Taken : FlagDeed.HandedBack),
        "r" => CallAsync(),
        "p" => RestAsync(isPromise: true),
        "w" when call.RestsUntil is not null => BringBackAsync(),
        "w" => RestAsync(isPromise: false),
        "g" => GiveAsync(),
        "s" when call.Spares.Count > 0 => SpareAsync(),
        "n" => NoteAsync(),
        "c" => CloseCallAsync(),
        _ => Task.CompletedTask,
    };

    private async Task StepToAsync(RoundCall call)
    {
        await OpenAsync(call.Place.Tank.Id);
        await FocusAsync();
    }

    /// <summary>Puts the keyboard back on the open row, or on the queue, so that the next key goes on from there.</summary>
    private ValueTask FocusAsync() =>
        Script.InvokeVoidAsync("tanksideFocus", OpenCall is { } call ? $"call-{call.Place.Tank.Code}" : "round");
}

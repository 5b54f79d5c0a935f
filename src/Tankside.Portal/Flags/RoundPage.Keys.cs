using Microsoft.AspNetCore.Components.Web;
using Microsoft.JSInterop;
using Tankside.Hatchery.Flags;

namespace Tankside.Portal.Flags;

/// <summary>The round by keyboard: arrows move, and each act has its letter.</summary>
public sealed partial class RoundPage
{
    /// <summary>One key after another: the next is heard when the last has done all it does, so that none is meant for a row just left.</summary>
    private readonly SemaphoreSlim keys = new(1);

    /// <summary>A dialog is open or about to: letters typed meanwhile are meant for it, not for the row behind.</summary>
    private bool asking;

    private async Task OnKeyAsync(KeyboardEventArgs key)
    {
        if (key.CtrlKey || key.AltKey || key.MetaKey || asking)
        {
            return;
        }

        var asks = OpensDialog(key.Key);
        asking |= asks;
        await keys.WaitAsync(gone.Token);
        try
        {
            await HearAsync(key);
        }
        finally
        {
            asking = !asks && asking;
            keys.Release();
        }
    }

    private static bool OpensDialog(string key) => key is "r" or "p" or "w" or "g" or "s" or "a" or "n" or "c";

    private async Task HearAsync(KeyboardEventArgs key)
    {
        List<RoundRow> rows = [.. round!.Rows, .. round.Resting];
        var at = rows.FindIndex(r => r.Key == openKey);
        switch (key.Key)
        {
            case "ArrowDown" or "j" when rows.Count > 0:
                await StepToAsync(rows[Math.Min(at + 1, rows.Count - 1)]);
                break;
            case "ArrowUp" or "k" when rows.Count > 0:
                await StepToAsync(rows[Math.Max(at - 1, 0)]);
                break;
            case "Escape":
                await CloseDetailAsync();
                break;
            case "u" when undo is not null:
                await UndoAsync(undo);
                break;
            default:
                if (OpenRow is { } row)
                {
                    await ActByKeyAsync(key.Key, row);
                }

                break;
        }
    }

    private Task ActByKeyAsync(string key, RoundRow row) => key switch
    {
        "t" => ActAsync(row.Leading.Flag.TakenBy is null ? FlagDeed.Taken : FlagDeed.HandedBack),
        "r" when row is RoundCall => CallAsync(),
        "p" => RestAsync(isPromise: true),
        "w" when row.RestsUntil is not null => BringBackAsync(),
        "w" => RestAsync(isPromise: false),
        "g" => GiveAsync(),
        "s" when row is RoundCall { Spares.Count: > 0 } => SpareAsync(),
        "a" when row is RoundCall => AidAsync(),
        "n" => NoteAsync(),
        "c" => CloseRowAsync(),
        _ => Task.CompletedTask,
    };

    private async Task StepToAsync(RoundRow row)
    {
        await OpenAsync(row.Key);
    }

    /// <summary>Puts the keyboard back on the open row, or on the queue, so that the next key goes on from there.</summary>
    /// <param name="left">The row that was open, when none is any more.</param>
    private ValueTask FocusAsync(string? left = null)
    {
        StateHasChanged(); // What is to hold the keyboard has to be shown first.
        return Script.InvokeVoidAsync("tanksideFocus", (OpenRow?.Key ?? left) is { } key ? $"call-{key}" : "round");
    }
}

using MudBlazor;
using Tankside.Hatchery.Flags;

namespace Tankside.Portal.Flags;

/// <summary>What a person does in the round.</summary>
public sealed partial class RoundPage
{
    /// <summary>Take or hand back every trouble of the open call.</summary>
    private Task ActAsync(FlagDeed deed) => ActOnAllAsync(OpenCall!.Troubles.Select(t => new FlagAct(t.Flag.Id, t.Flag.Turn, deed)), "");

    private async Task NoteAsync()
    {
        var call = OpenCall!;
        var dialog = await Dialogs.ShowAsync<NoteDialog>($"Note on {call.Place.School.Name}, {call.Place.Room.Name}");
        if (await dialog.Result is { Canceled: false, Data: string note })
        {
            var leading = call.Leading.Flag;
            await ActOnAllAsync([new FlagAct(leading.Id, leading.Turn, FlagDeed.Noted, note)], "Note kept.");
        }
    }

    private async Task CloseCallAsync()
    {
        var call = OpenCall!;
        var parameters = new DialogParameters<CloseDialog> { { d => d.Troubles, call.Troubles } };
        var dialog = await Dialogs.ShowAsync<CloseDialog>($"How did it end at {call.Place.School.Name}, {call.Place.Room.Name}?", parameters);
        if (await dialog.Result is { Canceled: false, Data: CloseChoice choice })
        {
            var acts = call.Troubles.Where(t => choice.Flags.Contains(t.Flag.Id))
                .Select(t => new FlagAct(t.Flag.Id, t.Flag.Turn, FlagDeed.Closed, choice.Note, choice.Outcome)).ToList();
            await ActOnAllAsync(acts, "Closed.");
        }
    }

    private async Task ActOnAllAsync(IEnumerable<FlagAct> acts, string done)
    {
        notice = null;
        var closed = new List<Flag>();
        foreach (var act in acts.ToList())
        {
            await using var scope = Scopes.CreateAsyncScope();
            var outcome = await scope.ServiceProvider.GetRequiredService<ActOnFlag>().ActAsync(act, user!, gone.Token);
            switch (outcome)
            {
                case ActOutcome.Done(var flag) when act.Deed == FlagDeed.Closed:
                    closed.Add(flag);
                    break;
                case ActOutcome.Clash clash:
                    notice ??= new Clash(act, clash);
                    break;
                case ActOutcome.Refused(var why):
                    Messages.Add(why, Severity.Warning);
                    break;
                default:
                    break;
            }
        }

        if (closed.Count > 0)
        {
            OfferUndo(closed);
        }
        else if (done.Length > 0 && notice is null)
        {
            Messages.Add(done, Severity.Normal);
        }

        await ReloadAsync();
        await FocusAsync();
    }

    private void OfferUndo(List<Flag> closed) => Messages.Add(
        closed.Count == 1 ? "Closed; it leaves the round." : $"{closed.Count} flags closed; they leave the round.", Severity.Normal, options =>
        {
            options.Action = "Undo";
            options.VisibleStateDuration = 12_000;
            options.OnClick = _ => InvokeAsync(() => ActOnAllAsync(closed.Select(f => new FlagAct(f.Id, f.Turn, FlagDeed.Reopened)), "Open again."));
        });

    /// <summary>The person has seen what the other did and still wants their own act.</summary>
    private Task ActAgainAsync(Clash clash) =>
        ActOnAllAsync([clash.Mine with { Turn = clash.Theirs.AsItIs.Turn }], "");
}

/// <summary>Two people acted on one flag: what I wanted, and what stands there now.</summary>
public sealed record Clash(FlagAct Mine, ActOutcome.Clash Theirs);

using MudBlazor;
using Tankside.Hatchery.Flags;
using Tankside.Portal.Flags.Calls;

namespace Tankside.Portal.Flags;

/// <summary>What a person does in the round, and how the last of it is undone.</summary>
public sealed partial class RoundPage
{
    /// <summary>The acts that take the last ones back; null when there is nothing to undo.</summary>
    private IReadOnlyList<FlagAct>? undo;

    /// <summary>Take or hand back every trouble of the open call.</summary>
    private Task ActAsync(FlagDeed deed) => ActOnAllAsync(
        StandingIn(OpenRow!).Select(t => new FlagAct(t.Flag.Id, t.Flag.Turn, deed)), deed == FlagDeed.Taken ? $"Taken: {OpenRow!.Who}." : $"Handed back: {OpenRow!.Who}.");

    private async Task NoteAsync()
    {
        var row = OpenRow!;
        var leading = row.Leading.Flag;
        var key = $"note {leading.Id}";
        var parameters = new DialogParameters<NoteDialog> { { d => d.Person, user!.PersonId }, { d => d.Key, key } };
        if (await AskAsync<NoteDialog, string>($"Note on {row.Who}", parameters) is { } note)
        {
            var on = row is RoundShared ? StandingIn(row).Select(t => t.Flag) : [leading];
            await ActOnAllAsync(on.Select(f => new FlagAct(f.Id, f.Turn, FlagDeed.Noted, note)), "Note kept.", key);
        }
    }

    private async Task CloseRowAsync()
    {
        var row = OpenRow!;
        var troubles = AllIn(row).ToList();
        var parameters = new DialogParameters<CloseDialog>
        {
            { d => d.Troubles, troubles }, { d => d.Person, user!.PersonId }, { d => d.Named, t => Named(row, t) },
        };
        if (await AskAsync<CloseDialog, CloseChoice>($"How did it end at {row.Who}?", parameters) is { } choice)
        {
            await ActOnAllAsync(
                troubles.Where(t => choice.Flags.Contains(t.Flag.Id))
                    .Select(t => new FlagAct(t.Flag.Id, t.Flag.Turn, FlagDeed.Closed, choice.Note, choice.Outcome, choice.Cause)),
                "Closed; it leaves the round.", CloseDialog.KeyOf(troubles));
        }
    }

    /// <summary>A promise or a wait holds for every trouble of the call that stands in the round.</summary>
    private async Task RestAsync(bool isPromise)
    {
        var row = OpenRow!;
        var parameters = new DialogParameters<RestDialog>
        {
            { d => d.Row, row }, { d => d.IsPromise, isPromise }, { d => d.Person, user!.PersonId }, { d => d.Now, round!.At },
        };
        if (await AskAsync<RestDialog, RestChoice>(isPromise ? $"What was promised at {row.Who}?" : $"Let {row.Who} wait", parameters) is { } choice)
        {
            var deed = isPromise ? FlagDeed.Promised : FlagDeed.Waiting;
            await ActOnAllAsync(
                StandingIn(row).Select(t => new FlagAct(t.Flag.Id, t.Flag.Turn, deed, choice.Words, Until: choice.Until)),
                $"It comes back {Moment(choice.Until)}.", RestDialog.KeyOf(isPromise, row));
        }
    }

    private Task BringBackAsync() => ActOnAllAsync(
        AllIn(OpenRow!).Where(t => t.RestsUntil is not null).Select(t => new FlagAct(t.Flag.Id, t.Flag.Turn, FlagDeed.WaitOver)), "Back in the round.");

    private async Task GiveAsync()
    {
        var row = OpenRow!;
        await using var db = await Databases.CreateDbContextAsync(gone.Token);
        var people = (await RoundPeople.OfAsync(db, user!.ProgrammeId, gone.Token)).Where(p => p.Id != row.Leading.Flag.TakenBy).ToList();
        var parameters = new DialogParameters<GiveDialog> { { d => d.People, people } };
        if (await AskAsync<GiveDialog, Guid?>($"Give {row.Who} to …", parameters) is { } to)
        {
            await ActOnAllAsync(StandingIn(row).Select(t => new FlagAct(t.Flag.Id, t.Flag.Turn, FlagDeed.Assigned, To: to)), $"Given to {people.First(p => p.Id == to).Name}.");
        }
    }

    /// <param name="draft">Where the words of these acts are kept until they are saved.</param>
    private async Task ActOnAllAsync(IEnumerable<FlagAct> acts, string done, string? draft = null, bool undoing = false)
    {
        clashes.Clear();
        var before = acts.Select(a => (Act: a, Flag: FlagOf(a.FlagId))).ToList();
        var saved = new List<(FlagAct Act, Flag? Before, Flag After)>();
        foreach (var (act, flag) in before)
        {
            await using var scope = Scopes.CreateAsyncScope();
            var outcome = await scope.ServiceProvider.GetRequiredService<ActOnFlag>().ActAsync(act, user!, gone.Token);
            if (outcome is ActOutcome.Done(var after))
            {
                saved.Add((act, flag, after));
            }
            else
            {
                Tell(act, outcome);
            }
        }

        undo = undoing ? null : [.. saved.Select(s => Undoing.Of(s.Act, s.Before, s.After)).OfType<FlagAct>()];
        if (saved.Count > 0)
        {
            await DropAsync(draft);
            OfferUndo(done, undo);
        }

        await ReloadAsync();
        await FocusAsync();
    }

    /// <summary>The words of a draft are saved as what they were meant for.</summary>
    private Task DropAsync(string? draft) => draft is null ? Task.CompletedTask : Drafts.KeepAsync(user!.PersonId, draft, "", gone.Token);

    /// <param name="again">Does it once more on the turn given; an act of its own is sent again when left out.</param>
    private void Tell(FlagAct act, ActOutcome outcome, Func<int, Task<ActOutcome>>? again = null)
    {
        switch (outcome)
        {
            case ActOutcome.Clash clash:
                clashes.Add(new Clash(act, clash, again));
                break;
            case ActOutcome.Refused(var why):
                Messages.Add(why, Severity.Warning);
                break;
            default:
                break;
        }
    }

    /// <summary>Each message takes back what it told of; when more was done since, what stands now is shown instead.</summary>
    private void OfferUndo(string done, IReadOnlyList<FlagAct>? acts) => Messages.Add(done, Severity.Normal, options =>
    {
        options.VisibleStateDuration = 12_000;
        options.DuplicatesBehavior = SnackbarDuplicatesBehavior.Allow;
        if (acts is { Count: > 0 })
        {
            options.Action = "Undo";
            options.OnClick = _ => InvokeAsync(() => UndoAsync(acts));
        }
    });

    private Task UndoAsync(IReadOnlyList<FlagAct> acts)
    {
        undo = null;
        return ActOnAllAsync(acts, "Undone.", undoing: true);
    }

    /// <summary>The person has seen what the others did and still wants their own acts.</summary>
    private async Task ActAgainAsync()
    {
        List<Clash> wanted = [.. clashes];
        clashes.Clear();
        foreach (var clash in wanted.Where(c => c.Again is not null))
        {
            if (await clash.Again!(clash.Theirs.AsItIs.Turn) is not ActOutcome.Done and var outcome)
            {
                Tell(clash.Mine, outcome, clash.Again);
            }
            else
            {
                Messages.Add("Saved as well.", Severity.Normal);
            }
        }

        List<Clash> again = [.. clashes];
        await ActOnAllAsync([.. wanted.Where(c => c.Again is null).Select(c => c.Mine with { Turn = c.Theirs.AsItIs.Turn })], "Saved as well.");
        clashes.AddRange(again);
    }

    /// <summary>Null when the dialog was left.</summary>
    private async Task<TResult?> AskAsync<TDialog, TResult>(string title, DialogParameters parameters)
        where TDialog : Microsoft.AspNetCore.Components.IComponent
    {
        var dialog = await Dialogs.ShowAsync<TDialog>(title, parameters);
        if (await dialog.Result is { Canceled: false, Data: TResult result })
        {
            return result;
        }

        await FocusAsync();
        return default;
    }

    /// <summary>True while what is done at a shared cause is done at the flags of its tanks as well.</summary>
    private bool atTanks = true;

    /// <summary>Every trouble that an act at the open row is for: of its tank, or of the shared cause and, where wanted, those of its tanks that it explains.</summary>
    private IEnumerable<RoundTrouble> AllIn(RoundRow row) => row is RoundShared shared && atTanks
        ? shared.Troubles.Concat(shared.Calls.SelectMany(c => c.Troubles.Where(t => shared.Explains(c.Key, t.Flag.Kind))))
        : row.Troubles;

    private static string Named(RoundRow row, RoundTrouble trouble) =>
        row is RoundShared shared && shared.Calls.FirstOrDefault(c => c.Troubles.Contains(trouble)) is { } call
            ? $"{FlagWords.Of(trouble.Flag.Kind)} at {call.Key}, {call.Who}"
            : FlagWords.Of(trouble.Flag.Kind);

    private IEnumerable<RoundTrouble> StandingIn(RoundRow row) =>
        row.RestsUntil is null ? AllIn(row).Where(t => t.RestsUntil is null) : AllIn(row);

    private Flag? FlagOf(Guid id) => round!.Rows.Concat(round.Resting).SelectMany(r => r.Troubles).FirstOrDefault(t => t.Flag.Id == id)?.Flag;
}

/// <summary>Two people acted on one flag: what I wanted, and what stands there now.</summary>
/// <param name="Again">Does what I wanted on the turn given, where that is more than a deed at the flag.</param>
public sealed record Clash(FlagAct Mine, ActOutcome.Clash Theirs, Func<int, Task<ActOutcome>>? Again = null);

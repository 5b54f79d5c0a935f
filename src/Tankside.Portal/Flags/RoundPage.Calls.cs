using MudBlazor;
using Tankside.Portal.Flags.Calls;
using Tankside.Portal.Flags.Spares;

namespace Tankside.Portal.Flags;

/// <summary>What goes beyond the flag: a call that is a reading too, and spares.</summary>
public sealed partial class RoundPage
{
    private async Task CallAsync()
    {
        var call = OpenCall!;
        await using var db = await Databases.CreateDbContextAsync(gone.Token);
        var parameters = new DialogParameters<CallDialog>
        {
            { d => d.Call, call },
            { d => d.Adults, await RoundPeople.AtAsync(db, call.Place.School.Id, gone.Token) },
            { d => d.Save, kept => KeepCallAsync(kept, call) },
            { d => d.Person, user!.PersonId },
            { d => d.Now, round!.At },
        };
        var outcome = await AskAsync<CallDialog, CallOutcome>($"Call {call.Who}", parameters);
        undo = null; // A call was made; there is nothing to take back but by a correction of its reading.
        if (outcome is CallOutcome.Kept)
        {
            await DropAsync(CallDialog.KeyOf(call));
        }

        switch (outcome)
        {
            case CallOutcome.Kept(_, { } doubt):
                Messages.Add($"The call is kept. {doubt} The reading waits for your answer below the queue.", Severity.Warning);
                break;
            case CallOutcome.Kept:
                Messages.Add("The call is kept.", Severity.Normal);
                break;
            case CallOutcome.ActFailed(var act, var failed, var readingKept):
                Tell(act, failed);
                Messages.Add(readingKept ? "What they read is kept; the rest of the call is not yet." : "The call is not kept yet.", Severity.Warning);
                break;
            default:
                return;
        }

        await ReloadAsync();
        await FocusAsync();
    }

    private async Task<CallOutcome> KeepCallAsync(Call kept, RoundCall call)
    {
        await using var scope = Scopes.CreateAsyncScope();
        return await scope.ServiceProvider.GetRequiredService<RecordCall>()
            .KeepAsync(kept, call.Place.Tank, [.. StandingIn(call).Select(t => t.Flag)], user!, gone.Token);
    }

    private async Task AidAsync()
    {
        var call = OpenCall!;
        var flag = call.Leading.Flag;
        await using var scope = Scopes.CreateAsyncScope();
        var slice = scope.ServiceProvider.GetRequiredService<SendFirstAid>();
        var parameters = new DialogParameters<AidDialog> { { d => d.Preview, language => slice.PreviewAsync(flag.Id, language, user!, gone.Token) } };
        if (!await AskAsync<AidDialog, bool>($"First aid for {call.Who}", parameters))
        {
            return;
        }

        await AndAgainAsync(
            new FlagAct(flag.Id, flag.Turn, Hatchery.Flags.FlagDeed.FirstAidSent), turn => SendAidAsync(flag.Id, turn), "The mails are on their way.");
    }

    private async Task<ActOutcome> SendAidAsync(Guid flag, int turn)
    {
        await using var scope = Scopes.CreateAsyncScope();
        return await scope.ServiceProvider.GetRequiredService<SendFirstAid>().SendAsync(flag, turn, user!, gone.Token);
    }

    /// <summary>Does what is more than a deed at a flag; after a clash it can be done once more.</summary>
    private async Task AndAgainAsync(FlagAct act, Func<int, Task<ActOutcome>> doing, string done)
    {
        clashes.Clear();
        var outcome = await doing(act.Turn);
        if (outcome is ActOutcome.Done)
        {
            Messages.Add(done, Severity.Normal);
        }
        else
        {
            Tell(act, outcome, doing);
        }

        undo = null;
        await ReloadAsync();
        await FocusAsync();
    }

    private async Task SpareAsync()
    {
        var call = OpenCall!;
        var parameters = new DialogParameters<SpareDialog> { { d => d.Spares, call.Spares } };
        if (await AskAsync<SpareDialog, SpareChoice>($"A spare for {call.Who}", parameters) is not { } choice)
        {
            return;
        }

        var flag = call.Leading.Flag;
        await AndAgainAsync(
            new FlagAct(flag.Id, flag.Turn, choice.Reserve ? Hatchery.Flags.FlagDeed.SpareReserved : Hatchery.Flags.FlagDeed.SpareGivenBack),
            turn => WithSpareAsync(flag.Id, turn, choice),
            choice.Reserve ? $"{choice.Item.Serial} is reserved for {call.Who}." : $"{choice.Item.Serial} is free again.");
    }

    private async Task<ActOutcome> WithSpareAsync(Guid flag, int turn, SpareChoice choice)
    {
        await using var scope = Scopes.CreateAsyncScope();
        var slice = scope.ServiceProvider.GetRequiredService<ReserveSpare>();
        return choice.Reserve
            ? await slice.ReserveAsync(flag, turn, choice.Item.Id, user!, gone.Token)
            : await slice.GiveBackAsync(flag, turn, choice.Item.Id, user!, gone.Token);
    }
}

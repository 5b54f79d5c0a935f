using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Kit;
using Tankside.Hatchery.People;
using Tankside.Portal.Kit;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Kit;

/// <summary>What is done with kit: the history and the place it leaves are one, whoever acts at the same moment.</summary>
public class KitActsTests
{
    [Theory, BothDatabases]
    public async Task A_swap_writes_both_sides_and_the_tank_follows_its_chiller(DatabaseKind kind)
    {
        await using var kit = await KitWorld.CreateAsync(kind);

        var (notice, refused) = await kit.DoAsync("CH-1", await kit.SwapAsync("CH-1", "SP-1", f => f.Note = "does not cool"));

        Assert.Empty(refused);
        Assert.True(notice!.Good, notice.Text);
        var (old, fresh) = (await kit.ItemAsync("CH-1"), await kit.ItemAsync("SP-1"));
        Assert.Equal((KitCondition.Faulty, null, kit.Hand.PersonId, true), (old.Condition, old.InTankId, old.WithPersonId!.Value, old.ToClean));
        Assert.Equal((KitCondition.Working, kit.World.One.Tanks[0].Id), (fresh.Condition, fresh.InTankId!.Value));
        var (left, came) = ((await kit.ActsAsync("CH-1"))[^1], (await kit.ActsAsync("SP-1"))[^1]);
        Assert.Equal(left.SenderId, came.SenderId);
        Assert.True(left.IsFailure && !came.IsFailure);
        await using var db = kit.Host.OpenDb();
        Assert.Equal("2022-A", (await db.Tanks.SingleAsync(t => t.Id == kit.World.One.Tanks[0].Id)).ChillerBatch);
    }

    [Theory, BothDatabases]
    public async Task The_same_form_sent_again_changes_nothing(DatabaseKind kind)
    {
        await using var kit = await KitWorld.CreateAsync(kind);
        var swap = await kit.SwapAsync("CH-1", "SP-1");
        await kit.DoAsync("CH-1", swap);
        var (acts, others) = (await kit.ActsAsync("CH-1"), await kit.ActsAsync("SP-1"));

        var (notice, refused) = await kit.DoAsync("CH-1", swap);

        Assert.Empty(refused);
        Assert.Contains("already", notice!.Text, StringComparison.Ordinal);
        Assert.Equal((acts.Count, others.Count), ((await kit.ActsAsync("CH-1")).Count, (await kit.ActsAsync("SP-1")).Count));
    }

    /// <summary>Eight people lend the same chiller to two tanks at once. One does; the piece is where the one act left it.</summary>
    [Theory, BothDatabases]
    public async Task A_serial_is_never_in_two_places_however_many_reach_for_it(DatabaseKind kind)
    {
        await using var kit = await KitWorld.CreateAsync(kind);
        var forms = await Task.WhenAll(Enumerable.Range(0, 8).Select(i =>
            kit.FormAsync("SP-1", KitActKind.Out, f => f.Tank = kit.World.One.Tanks[i % 2].Code)));

        var outcomes = await Task.WhenAll(forms.Select(f => Task.Run(() => kit.DoAsync("SP-1", f))));

        Assert.Single(outcomes, o => o.Notice is { Good: true });
        Assert.All(outcomes.Where(o => o.Notice is null), o => Assert.Contains("Nothing", Assert.Single(o.Refused), StringComparison.Ordinal));
        var act = Assert.Single(await kit.ActsAsync("SP-1"), a => a.Kind == KitActKind.Out);
        Assert.Equal(act.ToId, (await kit.ItemAsync("SP-1")).InTankId);
    }

    /// <summary>One swaps a spare in at the first tank while others lend it to the second and take it along.</summary>
    [Theory, BothDatabases]
    public async Task A_swap_against_a_loan_and_a_drive_ends_in_one_place_with_an_unbroken_history(DatabaseKind kind)
    {
        await using var kit = await KitWorld.CreateAsync(kind);
        var swap = await kit.SwapAsync("CH-1", "SP-1");
        var lend = await kit.FormAsync("SP-1", KitActKind.Out, f => f.Tank = kit.World.One.Tanks[1].Code);
        var take = await kit.FormAsync("SP-1", KitActKind.Taken, f => f.Person = $"{kit.Hand.PersonId}");

        var outcomes = await Task.WhenAll(
            Task.Run(() => kit.DoAsync("CH-1", swap)), Task.Run(() => kit.DoAsync("SP-1", lend)), Task.Run(() => kit.DoAsync("SP-1", take)));

        var (acts, item) = (await kit.ActsAsync("SP-1"), await kit.ItemAsync("SP-1"));
        Assert.All(acts.Zip(acts.Skip(1)), pair => Assert.Equal(pair.First.ToSpot, pair.Second.FromSpot));
        Assert.Equal(Enumerable.Range(1, acts.Count), acts.Select(a => a.Number));
        Assert.Equal(item.Spot, acts[^1].ToSpot);
        Assert.Equal(outcomes.Count(o => o.Notice is { Good: true }), acts.Count - 1);
        // A swap that was refused has moved neither side.
        Assert.Equal(outcomes[0].Notice is null, (await kit.ItemAsync("CH-1")).InTankId == kit.World.One.Tanks[0].Id);
    }

    [Theory, BothDatabases]
    public async Task Whoever_looked_before_another_acted_is_told_and_nothing_is_saved(DatabaseKind kind)
    {
        await using var kit = await KitWorld.CreateAsync(kind);
        var late = await kit.FormAsync("CH-1", KitActKind.In, f => f.Depot = $"{kit.Depot.Id}");
        await kit.DoAsync("CH-1", await kit.FormAsync("CH-1", KitActKind.Fault, f => f.Note = "hums"), kit.Coordinator);

        var (notice, refused) = await kit.DoAsync("CH-1", late);

        Assert.Null(notice);
        Assert.Contains("fault reported, “hums”", Assert.Single(refused), StringComparison.Ordinal);
        Assert.Equal(kit.World.One.Tanks[0].Id, (await kit.ItemAsync("CH-1")).InTankId);
        // What was typed still holds: sent again it is entered.
        Assert.True((await kit.DoAsync("CH-1", late)).Notice!.Good);
    }

    [Theory, BothDatabases]
    public async Task What_cannot_be_is_refused_with_a_reason_and_leaves_no_trace(DatabaseKind kind)
    {
        await using var kit = await KitWorld.CreateAsync(kind);
        (KitActKind Kind, Action<KitActForm> Fill, string Why)[] wrong =
        [
            (KitActKind.Out, f => f.Tank = "A002", "stands in a tank"),
            (KitActKind.In, f => f.Depot = $"{Guid.NewGuid()}", "Choose the depot"),
            (KitActKind.Taken, f => f.Person = $"{kit.World.Two.People[Role.KitHand].Id}", "Choose who"),
            (KitActKind.Swapped, _ => { }, "same piece"),
            (KitActKind.Fault, f => f.Day = "2027-02-04", "in the future"),
            (KitActKind.Fault, f => f.Day = "2026-12-01", "history goes to"),
            (KitActKind.Fault, f => f.Note = new string('x', 401), "At most 400"),
            (KitActKind.Noted, _ => { }, "Write the note"),
        ];
        foreach (var (act, fill, why) in wrong)
        {
            var form = await kit.FormAsync("CH-1", act);
            fill(form);

            var (notice, refused) = await kit.DoAsync("CH-1", form);

            Assert.Null(notice);
            Assert.Contains(why, string.Join(' ', refused), StringComparison.Ordinal);
        }

        Assert.Equal(2, (await kit.ActsAsync("CH-1")).Count);
    }
}

using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.Tests.Accounts;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Places.Register;

/// <summary>Another adult to ring about a room.</summary>
public class BackupTests
{
    [Theory, BothDatabases]
    public async Task A_teacher_names_a_backup_which_stands_in_the_hand_over_and_goes_when_that_adult_is_erased(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var (teacher, kitHand) = (await host.ClientAs(Role.Teacher, world.One), world.One.People[Role.KitHand]);
        Task<HttpResponseMessage> KeepAsync(string name, string phone) =>
            teacher.PostFormAsync("/tanks/A001/backup", new Dictionary<string, string> { ["Input.Name"] = name, ["Input.Phone"] = phone }, "backup");

        var half = await KeepAsync(kitHand.Name, "");
        await KeepAsync(kitHand.Name, "555-0177");

        Assert.Contains("Give both the name and the number", await half.WordsAsync(), StringComparison.Ordinal);
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);
        Assert.Contains("555-0177", await coordinator.WordsAsync("/handover"), StringComparison.Ordinal);
        Assert.DoesNotContain("555-0177", await (await host.ClientAs(Role.Coordinator, world.Two)).WordsAsync("/handover"), StringComparison.Ordinal);
        var own = await host.ClientAs(Role.KitHand, world.One);
        Assert.Contains("555-0177", await own.GetStringAsync("/me/data.json"), StringComparison.Ordinal);
        await own.PostFormAsync("/me/data", new Dictionary<string, string> { ["Input.Confirm"] = kitHand.Email! }, "erase");
        await using var db = host.OpenDb();
        Assert.Equal(0, await db.Classrooms.CountAsync(r => r.BackupName != null || r.BackupPhone != null));
        Assert.DoesNotContain("555-0177", string.Concat(await db.Changes.Select(c => c.Fields).ToListAsync()), StringComparison.Ordinal);
    }
}

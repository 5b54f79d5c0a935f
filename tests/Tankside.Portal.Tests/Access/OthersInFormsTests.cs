using System.Net.Http.Json;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Access;

/// <summary>Forms that name what belongs to another school or programme: a page that one may open is no way to change what one may not.</summary>
public class OthersInFormsTests
{
    private const string Release = "/releases release", TakeBack = "/releases withdraw", Move = "/ledger/{next-tank}/move move", Closure = "/season/closures closure",
        Reopen = "/season/closures remove", Invite = "/people invite", Uninvite = "/people withdraw", Revoke = "/people revoke";

    /// <summary>The stranger's attempt changes nothing; the very same form, sent by the lead whose things they are, does.</summary>
    [Theory]
    [InlineData(Release, Caller.TeacherOfOtherSchool)]
    [InlineData(Release, Caller.LeadOfOtherProgramme)]
    [InlineData(TakeBack, Caller.TeacherOfOtherSchool)]
    [InlineData(TakeBack, Caller.LeadOfOtherProgramme)]
    [InlineData(Move, Caller.TeacherOfOtherSchool)]
    [InlineData(Closure, Caller.LeadOfOtherProgramme)]
    [InlineData(Reopen, Caller.LeadOfOtherProgramme)]
    [InlineData(Invite, Caller.LeadOfOtherProgramme)]
    [InlineData(Uninvite, Caller.LeadOfOtherProgramme)]
    [InlineData(Revoke, Caller.LeadOfOtherProgramme)]
    public async Task A_form_with_the_id_of_somebody_elses_thing_changes_nothing(string addressAndForm, Caller stranger)
    {
        await using var callers = await Callers.GatherAsync(DatabaseKind.Sqlite);
        var (address, form) = (callers.Fill(addressAndForm.Split(' ')[0]), addressAndForm.Split(' ')[1]);
        var fields = await FieldsAsync(callers, addressAndForm);
        var before = await StateAsync(callers.Host);

        using var refused = await callers.Client(stranger).PostFormAsync(address, fields, form);
        Assert.Contains(Callers.Letter(refused), new[] { "y", "-" });
        Assert.Equal(before, await StateAsync(callers.Host));

        using var taken = await callers.Client(Caller.ProgrammeLead).PostFormAsync(address, fields, form);
        Assert.NotEqual(before, await StateAsync(callers.Host));
    }

    [Theory]
    [InlineData(Caller.LoggerKey, "{next-tank}")]
    [InlineData(Caller.CoordinatorKeyOfOtherProgramme, "{tank}")]
    [InlineData(Caller.CoordinatorKeyOfOtherProgramme, "{next-tank}")]
    public async Task A_key_adds_no_reading_to_a_tank_that_is_not_its_own(Caller stranger, string tank)
    {
        await using var callers = await Callers.GatherAsync(DatabaseKind.Sqlite);
        var reading = new { id = Guid.NewGuid(), tank = callers.Fill(tank), at = TestWorld.Now.AddMinutes(-5), waterC = 10.5 };
        var batch = new { readings = new[] { reading } };
        var before = await StateAsync(callers.Host);

        using var refused = await callers.Client(stranger).PostAsJsonAsync("/api/v1/readings", batch);
        Assert.Contains("There is no tank with this code for this key.", await refused.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.Equal(before, await StateAsync(callers.Host));

        using var taken = await callers.Client(Caller.CoordinatorKey).PostAsJsonAsync("/api/v1/readings", batch);
        Assert.NotEqual(before, await StateAsync(callers.Host));
    }

    private static async Task<Dictionary<string, string>> FieldsAsync(Callers callers, string addressAndForm)
    {
        var one = callers.World.One;
        await using var db = callers.Host.OpenDb();
        return addressAndForm switch
        {
            Release => new()
            {
                ["Input.Tank"] = one.Tanks[0].Code,
                ["Input.Site"] = $"{one.Site.Id}",
                ["Input.Permit"] = $"{one.Permit.Id}",
                ["Input.Fish"] = "2",
                ["Input.Day"] = "2027-02-02",
                ["Input.Time"] = "10:00",
            },
            TakeBack => new() { ["Withdrawn"] = $"{(await db.Releases.SingleAsync(r => r.TankId == one.Tanks[0].Id)).Id}" },
            Move => new() { ["Input.To"] = one.Tanks[0].Code, ["Input.Count"] = "2", ["Input.Day"] = "2027-02-02", ["Input.Time"] = "10:00" },
            Closure => new() { ["Input.School"] = $"{one.Schools[0].Id}", ["Input.FirstDay"] = "2027-03-01", ["Input.Reason"] = "Boiler" },
            Reopen => new() { ["Removed"] = $"{(await db.Closures.SingleAsync(c => c.ProgrammeId == one.Programme.Id)).Id}" },
            Invite => new() { ["Input.Email"] = "new@example.test", ["Input.Role"] = nameof(Role.Teacher), ["Input.School"] = $"{one.Schools[0].Id}" },
            Uninvite => new() { ["Invitation"] = $"{(await db.Invitations.SingleAsync(i => i.ProgrammeId == one.Programme.Id)).Id}" },
            Revoke => new() { ["Key"] = $"{(await db.ApiKeys.FirstAsync(k => k.ProgrammeId == one.Programme.Id)).Id}" },
            _ => throw new ArgumentOutOfRangeException(nameof(addressAndForm), addressAndForm, "not a form of this test"),
        };
    }

    /// <summary>Everything that one of the forms could have changed.</summary>
    private static async Task<string> StateAsync(PortalHost host)
    {
        await using var db = host.OpenDb();
        int[] counts =
        [
            await db.Ledger.CountAsync(), await db.Releases.CountAsync(), await db.Releases.CountAsync(r => r.WithdrawnAt != null),
            await db.Closures.CountAsync(), await db.Invitations.CountAsync(), await db.Invitations.CountAsync(i => i.WithdrawnAt != null),
            await db.ApiKeys.CountAsync(k => k.RevokedAt != null), await db.Readings.CountAsync(),
        ];
        return string.Join(", ", counts);
    }
}

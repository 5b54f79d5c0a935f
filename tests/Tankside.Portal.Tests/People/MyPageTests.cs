using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.Tests.Accounts;
using Tankside.Storage;
using Tankside.Storage.People;
using Tankside.Testing;

namespace Tankside.Portal.Tests.People;

/// <summary>Everybody's own page.</summary>
public class MyPageTests
{
    [Theory, BothDatabases]
    public async Task A_coordinator_chooses_mails_language_and_quiet_hours(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);
        Assert.Contains("Your morning mail comes at 06:30.", await coordinator.WordsAsync("/me"), StringComparison.Ordinal);

        var saved = await SendAsync(coordinator, new()
        {
            ["Input.Name"] = "Inés Vale",
            ["Input.Phone"] = "555 0199",
            ["Input.Language"] = "es",
            ["Input.WantsUrgent"] = "false",
            ["Input.QuietFrom"] = "21:30",
            ["Input.QuietTo"] = "06:00",
        });

        Assert.Contains("Su correo de la mañana llega a las 06:30; ningún correo de 21:30 a 06:00.", await saved.WordsAsync(), StringComparison.Ordinal);
        var me = await PersonAsync(host, world.One, Role.Coordinator);
        Assert.Equal(("Inés Vale", "555 0199", "es"), (me.Name, me.PhoneNumber, me.Language));
        Assert.Equal((true, false, new TimeOnly(21, 30), new TimeOnly(6, 0)), (me.WantsDigest, me.WantsUrgent, me.QuietFrom!.Value, me.QuietTo!.Value));
    }

    [Theory]
    [InlineData("21:00", "07:00", "Your morning mail is due at 06:30 and comes at 07:00, when your quiet hours from 21:00 are over.")]
    [InlineData("06:30", "08:00", "Your morning mail is due at 06:30 and comes at 08:00, when your quiet hours from 06:30 are over.")]
    [InlineData("21:00", "06:30", "Your morning mail comes at 06:30; no mail from 21:00 to 06:30.")]
    public async Task A_morning_mail_that_quiet_hours_hold_back_is_told_with_the_hour_it_comes(string from, string to, string told)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);

        var saved = await SendAsync(coordinator, new() { ["Input.Name"] = "Coordinator A", ["Input.QuietFrom"] = from, ["Input.QuietTo"] = to });

        Assert.Contains(told, await saved.WordsAsync(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("Input.Name", " ", "Give the name")]
    [InlineData("Input.Phone", "ask the office", "Give a number that can be rung")]
    [InlineData("Input.Language", "xx", "Choose one of the languages")]
    [InlineData("Input.QuietFrom", "late", "Give a time of day, such as 21:00")]
    [InlineData("Input.QuietTo", "", "Give a time of day, such as 06:30")]
    [InlineData("Input.QuietTo", "22:00", "Beginning and end are the same")]
    public async Task What_cannot_be_is_told_at_its_field_and_nothing_is_saved(string field, string typed, string told)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);
        var fields = new Dictionary<string, string> { ["Input.Name"] = "Somebody else", ["Input.QuietFrom"] = "22:00", ["Input.QuietTo"] = "06:00", [field] = typed };

        var answer = await SendAsync(coordinator, fields);

        Assert.Contains(told, await answer.WordsAsync(), StringComparison.Ordinal);
        var me = await PersonAsync(host, world.One, Role.Coordinator);
        Assert.Equal(("Coordinator A", null), (me.Name, me.QuietFrom));
    }

    [Theory, BothDatabases]
    public async Task The_lead_sets_the_hour_of_the_morning_mail_and_nobody_else_does(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);
        var hour = new Dictionary<string, string> { ["DigestHour"] = "07:15" };

        await (await host.ClientAs(Role.Coordinator, world.One)).PostFormAsync("/me", hour, "hour");
        Assert.Equal(new TimeOnly(6, 30), await HourAsync(host, world.One));
        await lead.PostFormAsync("/me", new Dictionary<string, string> { ["DigestHour"] = "dawn" }, "hour");
        Assert.Contains("The hour was not changed", await lead.WordsAsync("/me"), StringComparison.Ordinal);
        await lead.PostFormAsync("/me", hour, "hour");

        Assert.Equal(new TimeOnly(7, 15), await HourAsync(host, world.One));
        Assert.Equal(new TimeOnly(6, 30), await HourAsync(host, world.Two));
    }

    [Fact]
    public async Task A_teacher_is_asked_about_no_mail_of_the_round()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        var teacher = await host.ClientAs(Role.Teacher, world.One);

        Assert.DoesNotContain("morning mail", await teacher.WordsAsync("/me"), StringComparison.Ordinal);
        await SendAsync(teacher, new() { ["Input.Phone"] = "555 0100" });

        var me = await PersonAsync(host, world.One, Role.Teacher);
        Assert.Equal(("555 0100", true), (me.PhoneNumber, me.WantsDigest));
    }

    private static async Task<HttpResponseMessage> SendAsync(HttpClient client, Dictionary<string, string> fields)
    {
        var sent = await client.PostFormAsync("/me", fields, "me");
        return sent.Headers.Location is { } next ? await client.GetAsync(next) : sent;
    }

    private static async Task<Person> PersonAsync(PortalHost host, TestProgramme programme, Role role)
    {
        var id = programme.People[role].Id;
        await using var db = host.OpenDb();
        return await db.Users.AsNoTracking().SingleAsync(p => p.Id == id);
    }

    private static async Task<TimeOnly> HourAsync(PortalHost host, TestProgramme programme)
    {
        await using var db = host.OpenDb();
        return await db.Programmes.Where(p => p.Id == programme.Programme.Id).Select(p => p.DigestAt).SingleAsync();
    }
}

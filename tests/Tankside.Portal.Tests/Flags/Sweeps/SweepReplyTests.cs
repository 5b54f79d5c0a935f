using System.Net;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Storage;
using Tankside.Testing;
using static Tankside.Portal.Tests.Flags.Sweeps.SweepSteps;

namespace Tankside.Portal.Tests.Flags.Sweeps;

/// <summary>The link in the message: one press, without signing in.</summary>
public class SweepReplyTests
{
    private const string AllWell = nameof(SweepAnswer.AllWell), Trouble = nameof(SweepAnswer.Trouble);

    private static async Task<(PortalHost Host, TestProgramme One, HttpClient Coordinator, string Board, string Link)> AskedAsync(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);
        var (board, link) = await host.MarkedAndAskedAsync(coordinator, PowerCut);
        await host.JudgeAsync();
        host.Time.Advance(TimeSpan.FromMinutes(10));
        return (host, world.One, coordinator, board, link);
    }

    private static async Task<SweepReply> ReplyAsync(PortalHost host)
    {
        await using var db = host.OpenDb();
        return await db.SweepReplies.AsNoTracking().SingleAsync();
    }

    [Theory, BothDatabases]
    public async Task One_press_fills_the_board_and_takes_the_tank_out(DatabaseKind kind)
    {
        var (host, _, coordinator, board, link) = await AskedAsync(kind);
        await using var _ = host;
        Assert.Contains("Asked, no answer", await coordinator.ReadAsync(board), StringComparison.Ordinal);
        Assert.Equal(FlagState.Open, Assert.Single(await host.FlagsAsync(FlagKind.Silent)).State);

        using var pressed = await host.Anonymous().AnswerAsync(link, ("answer", AllWell));
        await host.JudgeAsync();

        Assert.Equal((HttpStatusCode.SeeOther, link), (pressed.StatusCode, pressed.Headers.Location?.ToString()));
        Assert.Contains("You answered: All is well 3 Feb 08:25.", await host.Anonymous().ReadAsync(link), StringComparison.Ordinal);
        Assert.Contains("1 school marked, 1 answered.", await coordinator.ReadAsync(board), StringComparison.Ordinal);
        Assert.Contains("All well , today 08:25", await coordinator.ReadAsync(board), StringComparison.Ordinal);
        Assert.Contains("1 of 1 school answered.", await coordinator.ReadAsync("/round"), StringComparison.Ordinal);
        Assert.Equal(FlagState.Settled, Assert.Single(await host.FlagsAsync(FlagKind.Silent)).State);
    }

    [Theory, BothDatabases]
    public async Task Trouble_brings_the_tank_up_and_a_second_press_changes_the_answer(DatabaseKind kind)
    {
        var (host, _, _, _, link) = await AskedAsync(kind);
        await using var _ = host;

        using (await host.Anonymous().AnswerAsync(link, ("answer", Trouble)))
        {
            await host.JudgeAsync();
        }

        Assert.Equal(Urgency.ActNow, Assert.Single(await host.FlagsAsync(FlagKind.Silent)).Urgency);
        host.Time.Advance(TimeSpan.FromMinutes(5));
        using var again = await host.Anonymous().AnswerAsync(link, ("answer", AllWell));
        await host.JudgeAsync();
        Assert.Equal((SweepAnswer.AllWell, host.Now), ((await ReplyAsync(host)).Answer, (await ReplyAsync(host)).AnsweredAt));
        Assert.Equal(FlagState.Settled, Assert.Single(await host.FlagsAsync(FlagKind.Silent)).State);
    }

    [Theory, BothDatabases]
    public async Task A_temperature_comes_in_like_every_reading_and_a_note_stays_with_the_answer(DatabaseKind kind)
    {
        var (host, one, _, _, link) = await AskedAsync(kind);
        await using var _ = host;
        (string, string)[] form = [("id", $"{Guid.NewGuid()}"), ("water", "53"), ("unit", "F"), ("moving", "true"), ("note", "Battery air is on.")];

        using var told = await host.Anonymous().AnswerAsync(link, form);
        using var twice = await host.Anonymous().AnswerAsync(link, form);

        Assert.Equal((HttpStatusCode.SeeOther, HttpStatusCode.SeeOther), (told.StatusCode, twice.StatusCode));
        await using var db = host.OpenDb();
        var reading = await db.Readings.SingleAsync();
        Assert.Equal((one.Tanks[0].Id, ReadingSource.Person, one.People[Role.Teacher].Id), (reading.TankId, reading.Source, reading.EnteredBy));
        Assert.Equal((11.67, true, null), (reading.Seen.WaterC, reading.Seen.Moving, reading.Seen.Note));
        Assert.Equal((null, "Battery air is on."), ((await ReplyAsync(host)).Answer, (await ReplyAsync(host)).Note));
    }

    [Theory]
    [InlineData("5x", "This is not a water temperature.")]
    [InlineData("500", "This is not a water temperature.")]
    [InlineData("25", "That is not like this tank.")]
    public async Task A_slip_in_the_number_never_costs_the_answer(string water, string said)
    {
        var (host, _, _, _, link) = await AskedAsync(DatabaseKind.Sqlite);
        await using var _ = host;

        using var answer = await host.Anonymous().AnswerAsync(link, ("answer", nameof(SweepAnswer.PowerOff)), ("water", water), ("unit", "C"));

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.Contains(said, await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.Contains("You answered:", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.Equal(SweepAnswer.PowerOff, (await ReplyAsync(host)).Answer);
    }

    [Fact]
    public async Task A_school_with_several_tanks_says_which()
    {
        var (host, one, _, _, link) = await AskedAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        var room = new Classroom { Id = Guid.NewGuid(), SchoolId = one.Schools[0].Id, Name = "Room 9" };
        var tank = new Tank { Id = Guid.NewGuid(), ProgrammeId = one.Programme.Id, ClassroomId = room.Id, Code = "A009", Litres = 208 };
        await host.SeedAsync(db => db.AddRange(room, tank));

        using var which = await host.Anonymous().AnswerAsync(link, ("water", "50"), ("unit", "F"));
        using var other = await host.Anonymous().AnswerAsync(link, ("water", "50"), ("unit", "F"), ("tank", $"{one.Tanks[1].Id}"));
        Assert.Contains("Your school has several tanks.", await which.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, other.StatusCode); // Of another school: not offered, not taken.

        using var told = await host.Anonymous().AnswerAsync(link, ("water", "50"), ("unit", "F"), ("tank", $"{tank.Id}"));
        await using var db = host.OpenDb();
        Assert.Equal(tank.Id, (await db.Readings.SingleAsync()).TankId);
    }

    [Fact]
    public async Task The_page_speaks_the_teachers_language_and_runs_no_script()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        await host.SeedAsync(db => db.Users.Single(p => p.Id == world.One.People[Role.Teacher].Id).Language = "es");
        var (_, link) = await host.MarkedAndAskedAsync(await host.ClientAs(Role.Coordinator, world.One), PowerCut);

        using var answer = await host.Anonymous().GetAsync(link);
        var page = await answer.Content.ReadAsStringAsync();

        Assert.Contains("<html lang=\"es\">", page, StringComparison.Ordinal);
        Assert.Contains("No hay luz", WebUtility.HtmlDecode(page), StringComparison.Ordinal);
        Assert.DoesNotContain("<script", page, StringComparison.Ordinal);
        Assert.Contains("default-src 'none'", string.Join(";", answer.Headers.GetValues("Content-Security-Policy")), StringComparison.Ordinal);
        Assert.DoesNotContain(answer.Headers, h => h.Key == "Set-Cookie");
    }

    [Theory, BothDatabases]
    public async Task The_link_works_until_two_days_after_the_end(DatabaseKind kind)
    {
        var (host, _, coordinator, board, link) = await AskedAsync(kind);
        await using var _ = host;
        await coordinator.PressAsync(board, "end");
        host.Time.Advance(TimeSpan.FromHours(47));
        Assert.Equal(HttpStatusCode.OK, (await host.Anonymous().GetAsync(link)).StatusCode);

        host.Time.Advance(TimeSpan.FromHours(2));
        using var late = await host.Anonymous().AnswerAsync(link, ("answer", AllWell));

        Assert.Equal(HttpStatusCode.Gone, late.StatusCode);
        Assert.Contains("This is over", await late.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.Null((await ReplyAsync(host)).Answer);
    }

    [Fact]
    public async Task Whoever_guesses_is_told_nothing_and_shut_out()
    {
        var (host, _, _, _, link) = await AskedAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        var anybody = host.Anonymous();

        for (var i = 0; i <= 60; i++)
        {
            using var wrong = await anybody.AnswerAsync($"/sweep/guess-{i}", ("answer", AllWell));
            Assert.Equal(HttpStatusCode.NotFound, wrong.StatusCode);
        }

        using var shutOut = await anybody.GetAsync(link);
        Assert.Equal(HttpStatusCode.TooManyRequests, shutOut.StatusCode);
        Assert.Null((await ReplyAsync(host)).Answer);
    }

    [Fact]
    public async Task Nothing_pressed_is_asked_again()
    {
        var (host, _, _, _, link) = await AskedAsync(DatabaseKind.Sqlite);
        await using var _ = host;

        using var empty = await host.Anonymous().AnswerAsync(link, ("answer", "Perhaps"), ("unit", "F"));
        using var wordy = await host.Anonymous().AnswerAsync(link, ("note", new string('x', 301)));

        Assert.Contains("Nothing was pressed or filled in.", await empty.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.Contains("This note is too long", await wordy.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.Equal((null, null), ((await ReplyAsync(host)).Answer, (await ReplyAsync(host)).Note));
    }
}

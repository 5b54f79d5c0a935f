using System.Data.Common;
using System.Net;
using System.Net.Http.Json;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Diagnostics;
using Microsoft.Extensions.DependencyInjection;
using Npgsql;
using Tankside.Hatchery.People;
using Tankside.Portal.Shell;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Shell;

/// <summary>While the database is away everybody is told so, when to come again, and that nothing is confirmed.</summary>
public sealed class AwayAnswersTests : IAsyncLifetime
{
    private readonly Gate gate = new();
    private PortalHost host = null!;
    private TestWorld world = null!;

    public async Task InitializeAsync() => (host, world) = await PortalHost.CreateWithWorldAsync(
        DatabaseKind.Sqlite, new PortalHostSettings { Services = s => s.AddSingleton<IInterceptor>(gate) });

    public async Task DisposeAsync() => await host.DisposeAsync();

    [Fact]
    public async Task A_class_page_says_so_in_both_languages_and_comes_again_by_itself()
    {
        var client = host.Anonymous();
        gate.IsShut = true;

        var answer = await client.GetAsync($"/t/{world.One.RoomCodes[0].Code}");

        Assert.Equal(HttpStatusCode.ServiceUnavailable, answer.StatusCode);
        Assert.Equal(TimeSpan.FromSeconds(5), answer.Headers.RetryAfter!.Delta);
        Assert.True(answer.Headers.Contains(ClassMark.Own));
        var page = await answer.Content.ReadAsStringAsync();
        Assert.Contains("http-equiv=\"refresh\"", page, StringComparison.Ordinal);
        Assert.Contains("What was saved is safe.", page, StringComparison.Ordinal);
        Assert.Contains("Lo que se guardó está a salvo.", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_form_is_not_confirmed_and_may_be_sent_again()
    {
        var client = host.Anonymous();
        var code = world.One.RoomCodes[0].Code;
        var fields = new Dictionary<string, string> { ["id"] = Guid.NewGuid().ToString(), ["water"] = "51", ["unit"] = "F", ["moving"] = "true" };
        gate.IsShut = true;
        var refused = await client.PostAsync($"/t/{code}", new FormUrlEncodedContent(fields));
        gate.IsShut = false;
        var taken = await client.PostAsync($"/t/{code}", new FormUrlEncodedContent(fields));
        await client.PostAsync($"/t/{code}", new FormUrlEncodedContent(fields));

        Assert.Equal(HttpStatusCode.ServiceUnavailable, refused.StatusCode);
        var page = await refused.Content.ReadAsStringAsync();
        Assert.Contains("is not confirmed as saved", page, StringComparison.Ordinal);
        Assert.DoesNotContain("http-equiv=\"refresh\"", page, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.SeeOther, taken.StatusCode);
        await using var db = host.OpenDb();
        Assert.Single(db.Readings);
    }

    [Fact]
    public async Task A_program_is_told_that_it_may_send_the_same_again()
    {
        var client = host.ClientWithKey(world.One.LoggerKey);
        gate.IsShut = true;

        var answer = await client.PostAsJsonAsync("/api/v1/readings", new { readings = new[] { new { id = Guid.NewGuid(), tank = "A001", at = TestWorld.Now, waterC = 10.4 } } });

        Assert.Equal(HttpStatusCode.ServiceUnavailable, answer.StatusCode);
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType!.MediaType);
        Assert.Equal(TimeSpan.FromSeconds(5), answer.Headers.RetryAfter!.Delta);
        Assert.Contains("with the same ids", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_page_of_people_needs_no_database_to_say_so()
    {
        var client = await host.ClientAs(Role.Coordinator, world.One);
        gate.IsShut = true;

        var answer = await client.GetAsync("/tanks");

        Assert.Equal(HttpStatusCode.ServiceUnavailable, answer.StatusCode);
        Assert.Contains("Please again in a moment", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Who_sends_to_a_database_without_room_is_told_so()
    {
        var (anybody, logger) = (host.Anonymous(), host.ClientWithKey(world.One.LoggerKey));
        gate.Trouble = new SqliteException("database or disk is full", 13);
        gate.IsShut = true;

        var form = await anybody.PostAsync($"/t/{world.One.RoomCodes[0].Code}", new FormUrlEncodedContent([new("water", "51"), new("unit", "F")]));
        var program = await logger.PostAsJsonAsync("/api/v1/readings", new { readings = new[] { new { id = Guid.NewGuid() } } });

        Assert.Equal((HttpStatusCode.ServiceUnavailable, HttpStatusCode.ServiceUnavailable), (form.StatusCode, program.StatusCode));
        Assert.Contains("Our database has no room left. What you have just sent is not confirmed as saved.", await form.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.Contains("no room left", await program.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_form_whose_page_cannot_be_made_is_answered_by_what_became_of_it()
    {
        var client = await host.ClientAs(Role.Coordinator, world.One);
        async Task<(HttpStatusCode Status, string Said)> SendAsync(Exception trouble)
        {
            gate.Trouble = trouble;
            gate.IsShut = false;
            var sendAsync = await client.OpenFormAsync("/announcements/new", new Dictionary<string, string>(), "announcement");
            gate.IsShut = true;
            var answer = await sendAsync();
            return (answer.StatusCode, await answer.Content.ReadAsStringAsync());
        }

        // A server whose disk is full to the last byte refuses every connection so.
        var away = await SendAsync(new PostgresException("could not write init file", "FATAL", "FATAL", PostgresErrorCodes.InternalError));
        Assert.Equal(HttpStatusCode.ServiceUnavailable, away.Status);
        Assert.Contains("is not confirmed as saved", away.Said, StringComparison.Ordinal);

        var bug = await SendAsync(new InvalidOperationException("a bug"));
        Assert.Equal(HttpStatusCode.InternalServerError, bug.Status);
        Assert.Contains("What was answered as saved is saved.", bug.Said, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_form_sent_to_an_address_that_cannot_be_read_is_the_senders_mistake_and_stores_nothing()
    {
        var client = await host.ClientAs(Role.Coordinator, world.One);
        var fields = new Dictionary<string, string> { ["Input.Name"] = "Back of the station" };
        var sendAsync = await client.OpenFormAsync("/kit/depots", fields, "depot", to: "/kit/depots?change=school");

        var answer = await sendAsync();

        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Contains("Nothing of it was stored.", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        await using var db = host.OpenDb();
        Assert.Empty(await db.KitDepots.Where(d => d.Name == "Back of the station").ToListAsync());
    }

    [Theory]
    [InlineData(5, true)] // busy
    [InlineData(10, true)] // could not be read or written
    [InlineData(13, true)] // full
    [InlineData(19, false)] // a constraint
    [InlineData(1, false)] // a wrong statement
    public void Of_the_embedded_database_only_what_passes_is_an_absence(int code, bool isAway) =>
        Assert.Equal(isAway, DatabaseAway.Is(new DbUpdateException("wrapped", new SqliteException("told", code))));

    [Fact]
    public void A_fault_of_ours_is_not_called_an_absence()
    {
        Assert.False(DatabaseAway.Is(new InvalidOperationException("a bug")));
        Assert.False(DatabaseAway.Is(new PostgresException("there already", "ERROR", "ERROR", PostgresErrorCodes.UniqueViolation)));
        Assert.True(DatabaseAway.Is(new InvalidOperationException("wrapped", new NpgsqlException("broken"))));
        Assert.True(DatabaseAway.Is(new PostgresException("a replica", "ERROR", "ERROR", PostgresErrorCodes.ReadOnlySqlTransaction)));
        Assert.True(DatabaseAway.Is(new PostgresException("full", "ERROR", "ERROR", PostgresErrorCodes.DiskFull)));
        Assert.True(DatabaseAway.Is(new PostgresException("going", "FATAL", "FATAL", PostgresErrorCodes.AdminShutdown)));
        Assert.True(DatabaseAway.Is(new PostgresException("could not write init file", "FATAL", "FATAL", PostgresErrorCodes.InternalError)));
        Assert.True(DatabaseAway.Is(new PostgresException("schwerwiegend", "FATAL", "FATAL", PostgresErrorCodes.InternalError)));
        Assert.False(DatabaseAway.Is(new PostgresException("a bug of the server", "ERROR", "ERROR", PostgresErrorCodes.InternalError)));
    }

    /// <summary>Nobody gets through to the database while it is shut.</summary>
    private sealed class Gate : DbConnectionInterceptor
    {
        public bool IsShut { get; set; }

        public Exception Trouble { get; set; } = new NpgsqlException("No suitable host was found.");

        public override ValueTask<InterceptionResult> ConnectionOpeningAsync(
            DbConnection connection, ConnectionEventData eventData, InterceptionResult result, CancellationToken cancellationToken = default) =>
            IsShut ? throw Trouble : ValueTask.FromResult(result);
    }
}

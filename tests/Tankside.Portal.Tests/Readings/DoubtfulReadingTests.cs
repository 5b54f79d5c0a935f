using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Readings;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Readings;

/// <summary>A doubtful temperature is neither believed, nor changed, nor dropped: it is kept and asked back.</summary>
public class DoubtfulReadingTests
{
    [Theory, BothDatabases]
    public async Task Fifty_two_in_a_Celsius_field_is_understood_as_Fahrenheit(DatabaseKind kind)
    {
        var asked = await AskedAsync(kind, "52", 52, TemperatureUnit.C);

        Assert.Equal((Doubt.OtherScale, TemperatureUnit.F), (asked.Doubt, asked.UnderstoodUnit));
        Assert.Equal(11.11, asked.Understood, 0.005);
        Assert.Equal(("waterC", "52"), (asked.Field, asked.Typed));
    }

    [Theory, BothDatabases]
    public async Task Twenty_five_Celsius_lies_between_the_scales(DatabaseKind kind) =>
        Assert.Equal(Doubt.BetweenScales, (await AskedAsync(kind, "25", 25, TemperatureUnit.C)).Doubt);

    [Theory, BothDatabases]
    public async Task Twenty_Fahrenheit_would_be_a_block_of_ice(DatabaseKind kind) =>
        Assert.Equal(Doubt.OtherScale, (await AskedAsync(kind, "20", 20, TemperatureUnit.F)).Doubt);

    [Theory, BothDatabases]
    public async Task A_rise_that_no_tank_can_make_is_asked(DatabaseKind kind) =>
        Assert.Equal(Doubt.ImpossibleJump, (await AskedAsync(kind, "19", 19, TemperatureUnit.C, readAnHourBefore: 9)).Doubt);

    [Theory, BothDatabases]
    public async Task A_fall_that_no_tank_can_make_is_asked(DatabaseKind kind) =>
        Assert.Equal(Doubt.ImpossibleJump, (await AskedAsync(kind, "5", 5, TemperatureUnit.C, readAnHourBefore: 14)).Doubt);

    [Theory, BothDatabases]
    public async Task The_same_rise_over_two_days_is_believed(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;

        await host.AcceptAsync(
            Sent.Water(world.One.Tanks[0], host.Now.AddDays(-2), 9),
            Sent.Water(world.One.Tanks[0], host.Now, 19));
    }

    [Theory, BothDatabases]
    public async Task A_value_confirmed_as_it_stands_is_accepted_as_typed(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;

        await host.AcceptAsync(Sent.Water(world.One.Tanks[0], host.Now, 25) with { ConfirmedBy = "class" });

        await using var db = host.OpenDb();
        var stored = await db.Readings.SingleAsync();
        Assert.Equal((25.0, "class", ReadingState.Accepted), (stored.Seen.WaterC, stored.ConfirmedBy, stored.State));
    }

    [Theory, BothDatabases]
    public async Task An_asked_reading_sent_again_is_a_duplicate(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var sent = Sent.Water(world.One.Tanks[0], host.Now, 25);
        Assert.IsType<IntakeOutcome.Asked>(Assert.Single(await host.RecordAsync(sent)));

        Assert.IsType<IntakeOutcome.Duplicate>(Assert.Single(await host.RecordAsync(sent)));
    }

    /// <summary>Sends one temperature with two dead eggs; whatever the doubt, it is kept, unjudged, and nothing is booked.</summary>
    private static async Task<IntakeOutcome.Asked> AskedAsync(
        DatabaseKind kind, string text, double value, TemperatureUnit unit, double? readAnHourBefore = null)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var tank = world.One.Tanks[0];
        if (readAnHourBefore is { } before)
        {
            await host.AcceptAsync(Sent.Water(tank, host.Now.AddHours(-1), before));
            await host.JudgeAsync();
        }

        var sent = Sent.Typed(tank, host.Now, text, value, unit) with { Seen = new Observation { DeadEggs = 2 } };
        var outcome = Assert.IsType<IntakeOutcome.Asked>(Assert.Single(await host.RecordAsync(sent)));

        await using var db = host.OpenDb();
        var stored = await db.Readings.SingleAsync(r => r.SenderId == sent.SenderId);
        Assert.Equal((ReadingState.Asked, text, unit), (stored.State, stored.TypedWater, stored.TypedUnit));
        Assert.Equal(outcome.Doubt, stored.Doubt);
        Assert.False(stored.Counts);
        Assert.Empty(await db.UnjudgedFacts.ToListAsync());
        Assert.Empty(await db.Ledger.Where(e => e.Reading != null).ToListAsync());
        return outcome;
    }
}

using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Accounts;
using Tankside.Portal.Places;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Releases.ToTheStream;

/// <summary>The tanks that a person may release from, on the programme's scale and day.</summary>
public sealed record TemperingHand(IReadOnlyList<TankPlace> Tanks, TemperatureUnit Unit, DateTime Now);

/// <summary>What was asked, with its answer or what could not be read.</summary>
public sealed record TemperingAsked(TankPlace? Tank, TemperingPlan? Plan, string? Wrong)
{
    public static TemperingAsked Read(TemperingHand hand, string? code, string? stream, string? day, Say say)
    {
        var tank = hand.Tanks.FirstOrDefault(t => t.Tank.Code == code);
        if (stream is null)
        {
            // Not asked yet; a booking's sheet names tank and day.
            return new TemperingAsked(tank, null, null);
        }

        if (tank is null)
        {
            return new TemperingAsked(null, null, say["Choose the tank."]);
        }

        if (!WaterTemperature.TryRead(stream, out var value, out var unit) || WaterTemperature.ToC(value, unit ?? hand.Unit) is not (> 0 and < 25 and var streamC))
        {
            return new TemperingAsked(tank, null, say.Of("Type the stream’s temperature as it was measured, as a number of °{0}.", hand.Unit));
        }

        var (clock, calendar) = (tank.Calendar.Clock, tank.Calendar);
        var today = clock.Day(hand.Now);
        if (!DateOnly.TryParseExact(day, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var on) || on < today || on > today.AddYears(1))
        {
            return new TemperingAsked(tank, null, say["Give the day of the release, today or later."]);
        }

        // After the bell nobody is at the dial any more.
        var over = calendar.IsSchoolDay(today) && calendar.WindowOf(today).Closes <= hand.Now;
        var (coldest, warmest) = (tank.OwnSettings.Of(TemperingSettings.Coldest), tank.OwnSettings.Of(TemperingSettings.Warmest));
        var plan = TemperingPlan.Of(tank.Tank.SetPointC, streamC, over ? today.AddDays(1) : today, on, calendar, coldest, warmest);
        return new TemperingAsked(tank, plan with { ApartC = tank.OwnSettings.Of(TemperingSettings.Apart) }, null);
    }
}

/// <summary>Loads the tanks that may be tempered.</summary>
public sealed class TemperTanks(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    public async Task<TemperingHand> LoadAsync(CurrentUser user, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var now = time.GetUtcNow().UtcDateTime;
        var open = await TanksInReach.Of(db, user).Where(t => t.ClosedAt == null).Select(t => t.Id).ToListAsync(cancel);
        var places = (await Surroundings.LoadAsync(db, open, cancel, now)).All.OrderBy(p => p.Tank.Code, StringComparer.Ordinal).ToList();
        var unit = await db.Programmes.Where(p => p.Id == user.ProgrammeId).Select(p => p.ScreenUnit).SingleAsync(cancel);
        return new TemperingHand(places, unit, now);
    }
}

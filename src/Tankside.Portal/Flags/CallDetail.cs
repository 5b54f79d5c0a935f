using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Flags.InTheTank;
using Tankside.Portal.Places;
using Tankside.Portal.Shell.Charts;
using Tankside.Storage;

namespace Tankside.Portal.Flags;

/// <summary>One line of what was done at a tank's flags.</summary>
public sealed record HistoryLine(DateTime At, FlagKind Kind, FlagEvent Event, string? By, string? To = null, string? Until = null);

/// <summary>A flag settled lately, which can be opened again.</summary>
public sealed record SettledFlag(Flag Flag, string Reason);

/// <summary>What stands beside the queue when a call is open.</summary>
public sealed record CallDetail(
    TankPlace Place,
    TankRecord Record,
    DevelopmentNow? Development,
    IReadOnlyList<TemperaturePoint> Water,
    IReadOnlyList<HistoryLine> History,
    IReadOnlyList<SettledFlag> Settled)
{
    /// <summary>The dead day by day beside what is expected; empty before any eggs came.</summary>
    public IReadOnlyList<LossDay> Losses { get; init; } = [];

    /// <summary>Days of water temperature shown.</summary>
    private const int ChartDays = 10;

    /// <summary>How long a settled flag can be opened again from the round.</summary>
    private const int SettledDays = 2;

    public static async Task<CallDetail> LoadAsync(HatcheryDb db, Guid tankId, DateTime now, TemperatureUnit unit, CancellationToken cancel)
    {
        var places = await Surroundings.LoadAsync(db, [tankId], cancel, now);
        var place = places.Of(tankId);
        var record = (await TankRecords.LoadAsync(db, [tankId], places, withSiblings: true, now, cancel))[0];
        var clock = record.Calendar.Clock;
        var flags = await db.Flags.AsNoTracking()
            .Where(f => f.TankId == tankId && (f.State == FlagState.Open || f.SettledAt > now.AddDays(-SettledDays)))
            .ToListAsync(cancel);
        var words = new ReasonWords(record.Calendar, record.Fish, now, unit, place.Names);
        return new CallDetail(
            place,
            record,
            record.Lot is null ? null : record.DevelopmentOn(clock.Day(now)),
            [.. record.Recent.Where(r => r.Seen.WaterC is not null && r.At > now.AddDays(-ChartDays))
                .Select(r => new TemperaturePoint(clock.Local(r.At), r.Seen.WaterC!.Value, false))],
            await HistoryAsync(db, flags, new TimeWords(clock, now), cancel),
            [.. flags.Where(f => f.State == FlagState.Settled).OrderByDescending(f => f.SettledAt).Select(f => new SettledFlag(f, words.Of(f.AsFinding())))])
        {
            Losses = record is { Lot: { } lot, Ledger: { } account } ? ExpectedLosses.Days(record, lot, account.Balance, clock.Day(now)) : [],
        };
    }

    private static async Task<IReadOnlyList<HistoryLine>> HistoryAsync(HatcheryDb db, List<Flag> flags, TimeWords time, CancellationToken cancel)
    {
        var ids = flags.Select(f => f.Id).ToList();
        var events = await db.FlagEvents.AsNoTracking().Where(e => ids.Contains(e.FlagId)).OrderByDescending(e => e.At).ThenByDescending(e => e.Id)
            .Take(60).ToListAsync(cancel);
        var by = events.SelectMany(e => new[] { e.By, e.To }).OfType<Guid>().Distinct().ToList();
        var names = await db.Users.Where(p => by.Contains(p.Id)).ToDictionaryAsync(p => p.Id, p => p.Name, cancel);
        return [.. events.Select(e => new HistoryLine(
            e.At, flags.First(f => f.Id == e.FlagId).Kind, e, NameOf(e.By), NameOf(e.To), e.Until is { } until ? time.When(until) : null))];

        string? NameOf(Guid? person) => person is { } id ? names.GetValueOrDefault(id, "a former member") : null;
    }

    /// <summary>The band in which this stage's water is well, by the programme's own limits.</summary>
    public SafeBand Safe => StageBand.Of(Development?.Stage ?? LifeStage.Egg, Record.Limits);

    /// <summary>The closed days of the chart of the water.</summary>
    public IReadOnlyList<ClosedDays> ClosedIn(DateTime now)
    {
        var last = Record.Calendar.Clock.Day(now).AddDays(1);
        return Closed(last.AddDays(-ChartDays - 1), last);
    }

    /// <summary>The closed days from the eggs' arrival until the stage that comes next.</summary>
    public IReadOnlyList<ClosedDays> ClosedOnTheWay => Record.Lot is not { } lot ? []
        : Closed(lot.DeliveredOn, new[] { Development?.Hatch?.High80, Development?.SwimUp?.High80 }.OfType<DateOnly>().DefaultIfEmpty(lot.DeliveredOn).Max());

    private IReadOnlyList<ClosedDays> Closed(DateOnly from, DateOnly to) => [.. Record.Calendar.ClosedRuns(from, to).Select(r => new ClosedDays(r.First, r.Last))];
}

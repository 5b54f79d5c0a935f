using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Places;
using Tankside.Portal.Shell.Charts;
using Tankside.Storage;

namespace Tankside.Portal.Flags.InTheTank;

/// <summary>A tank's water over the last thirty days as the chart takes it, readings that were asked back among them.</summary>
public static class WaterHistory
{
    private const int Days = 30;

    /// <summary>More points than this are one smear on a screen; a logger's are thinned to the lowest and the highest of each stretch.</summary>
    private const int MostPoints = 180;

    public static async Task<IReadOnlyList<TemperaturePoint>> LoadAsync(HatcheryDb db, TankPlace place, DateTime now, CancellationToken cancel)
    {
        var from = now.AddDays(-Days);
        var rows = await db.Readings.AsNoTracking()
            .Where(r => r.TankId == place.Tank.Id && r.At >= from && r.State != ReadingState.Withdrawn && r.CorrectedBy == null && r.Seen.WaterC != null)
            .OrderBy(r => r.At)
            .Select(r => new { r.At, r.State, r.Seen.WaterC, r.TypedWater, r.TypedUnit })
            .ToListAsync(cancel);
        var points = new List<TemperaturePoint>(rows.Count);
        TemperaturePoint? last = null;
        foreach (var row in rows)
        {
            var at = place.Calendar.Clock.Local(row.At);
            if (row.State == ReadingState.Accepted)
            {
                points.Add(last = new TemperaturePoint(at, row.WaterC!.Value));
            }
            else if (Meant(place, row.At, row.TypedWater, row.TypedUnit, last) is { } meant)
            {
                points.Add(new TemperaturePoint(at, meant, Asked: true));
            }
        }

        return Thinned(points);
    }

    /// <summary>What was probably meant: 52 on the Celsius scale has no place on a chart of cold water.</summary>
    private static double? Meant(TankPlace place, DateTime at, string? text, TemperatureUnit? typedUnit, TemperaturePoint? last)
    {
        if (!WaterTemperature.TryRead(text, out var value, out var unit))
        {
            return null;
        }

        var tank = place.Tank;
        var habits = new TankHabits(last?.C, null, tank.Litres, tank.Jacket, tank.RoomC);
        return WaterTemperature.Judge(value, typedUnit ?? unit ?? tank.UsualUnit, at, habits) switch
        {
            WaterVerdict.Doubted doubted => doubted.Understood,
            WaterVerdict.Believed believed => believed.Celsius,
            _ => null,
        };
    }

    /// <summary>Keeps both extremes of every stretch, so that no peak is lost.</summary>
    public static IReadOnlyList<TemperaturePoint> Thinned(IReadOnlyList<TemperaturePoint> points)
    {
        if (points.Count <= MostPoints)
        {
            return points;
        }

        var stretch = (points[^1].At - points[0].At) / (MostPoints / 2);
        return [.. points.Where(p => !p.Asked)
            .GroupBy(p => (long)((p.At - points[0].At) / stretch))
            .SelectMany(g => new[] { g.MinBy(p => p.C)!, g.MaxBy(p => p.C)! }.Distinct())
            .Concat(points.Where(p => p.Asked))
            .OrderBy(p => p.At)];
    }
}

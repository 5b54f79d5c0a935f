namespace Tankside.Hatchery.Kit;

/// <summary>The programme's own numbers for kit, under these keys; the defaults where it has set none.</summary>
public sealed record KitSettings(
    double RoadFactor, double KmAnHour, double FailuresASeason, double RepairWeeks, double SeasonWeeks, double Cover, double StormShare)
{
    public const string RoadFactorKey = "drive.road-factor", KmAnHourKey = "drive.km-an-hour", FailuresKey = "kit.failures-a-season",
        RepairWeeksKey = "kit.repair-weeks", SeasonWeeksKey = "kit.season-weeks", CoverKey = "kit.cover", StormShareKey = "kit.storm-share";

    public static readonly KitSettings Defaults = new(
        RoadFactor: 1.3, KmAnHour: 50, FailuresASeason: 0.10, RepairWeeks: 4, SeasonWeeks: 22, Cover: 0.95, StormShare: 0.10);

    public Driving Driving => new(RoadFactor, KmAnHour);

    public static KitSettings Of(IReadOnlyDictionary<string, double> own)
    {
        return new KitSettings(
            Get(RoadFactorKey, Defaults.RoadFactor), Get(KmAnHourKey, Defaults.KmAnHour), Get(FailuresKey, Defaults.FailuresASeason),
            Get(RepairWeeksKey, Defaults.RepairWeeks), Get(SeasonWeeksKey, Defaults.SeasonWeeks), Get(CoverKey, Defaults.Cover),
            Get(StormShareKey, Defaults.StormShare));

        double Get(string key, double standard) => own.TryGetValue(key, out var value) ? value : standard;
    }
}

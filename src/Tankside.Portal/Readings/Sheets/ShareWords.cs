using Tankside.Hatchery.Readings;

namespace Tankside.Portal.Readings.Sheets;

/// <summary>How people write how many have hatched or swim.</summary>
public static class ShareWords
{
    private static readonly Dictionary<string, Share> Shares = new(StringComparer.OrdinalIgnoreCase)
    {
        ["none"] = Share.None,
        ["no"] = Share.None,
        ["0"] = Share.None,
        ["0%"] = Share.None,
        ["ninguno"] = Share.None,
        ["ninguna"] = Share.None,
        ["some"] = Share.Some,
        ["few"] = Share.Some,
        ["algunos"] = Share.Some,
        ["algunas"] = Share.Some,
        ["half"] = Share.Half,
        ["50%"] = Share.Half,
        ["mitad"] = Share.Half,
        ["la mitad"] = Share.Half,
        ["most"] = Share.Most,
        ["mayoría"] = Share.Most,
        ["la mayoría"] = Share.Most,
        ["all"] = Share.All,
        ["100%"] = Share.All,
        ["todos"] = Share.All,
        ["todas"] = Share.All,
    };

    public static Share? ShareOf(string cell) => Shares.TryGetValue(cell, out var share) ? share : null;
}

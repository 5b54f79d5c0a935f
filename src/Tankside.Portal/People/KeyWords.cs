using Tankside.Hatchery.People;

namespace Tankside.Portal.People;

/// <summary>Keys in words.</summary>
public static class KeyWords
{
    public static string Does(ApiKeyRole role) => role switch
    {
        ApiKeyRole.Logger => "Logger: adds readings",
        ApiKeyRole.Coordinator => "Coordinator: reads round and totals, adds readings",
    };

    /// <summary>"logger of Room 3"; one without a name by the day it was made.</summary>
    public static string Called(ListedKey key, Programme programme) => key.Name ?? $"made on {LocalTimes.Day(programme, key.IssuedAt)}";

    public static string Tanks(ListedKey key) => key.AllTanks ? "all, also new ones" : string.Join(", ", key.Tanks);
}

using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Flags.Rehearsals;

namespace Tankside.Hatchery.Tests.Flags.Rehearsals;

/// <summary>The mornings of the first seeds, made up once for all tests.</summary>
internal static class Mornings
{
    private static readonly Lazy<IReadOnlyList<MadeUpMorning>> Made = new(() => [.. Enumerable.Range(1, 200).Select(Rehearsing.Morning)]);

    public static IReadOnlyList<MadeUpMorning> TwoHundred => Made.Value;

    public static IReadOnlyList<MadeUpMorning> Twenty { get; } = [.. Made.Value.Take(20)];
}

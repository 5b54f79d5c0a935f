using Tankside.Hatchery.Flags;
using Tankside.Portal.Places;
using Tankside.Science.Units;

namespace Tankside.Portal.Flags;

/// <summary>A flag as replay and API write it.</summary>
public record FlagJson
{
    public required int Rank { get; init; }

    public required string? Tank { get; init; }

    public required string Kind { get; init; }

    public required string Reason { get; init; }

    public required double ExpectedLoss { get; init; }

    public required HoursJson? HoursLeft { get; init; }

    public required int Fish { get; init; }

    public required IReadOnlyList<string> Tanks { get; init; }

    public required string Urgency { get; init; }

    public static FlagJson Of<T>(Call<T> call, RankedTrouble<T> trouble, string reason) => new()
    {
        Rank = trouble.Rank,
        Tank = call.Tank.Code,
        Kind = FlagNames.NameOf(trouble.Finding.Kind),
        Reason = reason,
        ExpectedLoss = Math.Round(trouble.ExpectedLoss, 2),
        HoursLeft = HoursJson.Of(trouble.HoursLeft),
        Fish = call.Fish,
        Tanks = [call.Tank.Code],
        Urgency = FlagNames.NameOf(trouble.Finding.Urgency),
    };
}

/// <summary>A flag that the portal keeps: with its id, when it was opened (ISO 8601, programme's offset) and whether it is open or settled.</summary>
public sealed record FlagOfPortalJson : FlagJson
{
    public required Guid Id { get; init; }

    public required string OpenedAt { get; init; }

    public required string State { get; init; }

    /// <summary>Without a place in the round: rank 0, nothing expected lost.</summary>
    public static FlagOfPortalJson Of(Flag flag, TankPlace place, int fish, string reason) => new()
    {
        Id = flag.Id,
        OpenedAt = place.Calendar.Clock.Iso(flag.OpenedAt),
        State = flag.State == FlagState.Open ? "open" : "settled",
        Rank = 0,
        Tank = place.Tank.Code,
        Kind = FlagNames.NameOf(flag.Kind),
        Reason = reason,
        ExpectedLoss = 0,
        HoursLeft = null,
        Fish = fish,
        Tanks = [place.Tank.Code],
        Urgency = FlagNames.NameOf(flag.Urgency),
    };
}

/// <summary>Hours with their 80% interval.</summary>
public sealed record HoursJson(double Low, double Mid, double High)
{
    public static HoursJson? Of(Band? band) =>
        band is { } b ? new HoursJson(Math.Round(b.Low, 2), Math.Round(b.Mid, 2), Math.Round(b.High, 2)) : null;
}

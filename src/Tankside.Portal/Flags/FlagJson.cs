using System.Text.Json;
using System.Text.Json.Serialization;
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

    /// <summary>Left out for the trouble of one tank.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public CauseJson? Cause { get; init; }

    /// <summary>A cause that several tanks share: no tank of its own, and the fish of its tanks.</summary>
    public static FlagJson Of<T>(RoundEntry<T>.OfShared shared, string reason) => new()
    {
        Rank = shared.Trouble.Rank,
        Tank = null,
        Kind = FlagNames.NameOf(shared.Trouble.Finding.Kind),
        Reason = reason,
        ExpectedLoss = Math.Round(shared.ExpectedLoss, 2),
        HoursLeft = HoursJson.Of(shared.HoursLeft),
        Fish = shared.Fish,
        Tanks = [.. shared.Evidence.Tanks.Select(t => t.Code)],
        Urgency = FlagNames.NameOf(shared.Trouble.Finding.Urgency),
        Cause = CauseJson.Of(shared.Evidence),
    };

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

    /// <summary>A cause that several tanks share, in its place of the round.</summary>
    public static FlagOfPortalJson Of(RoundShared shared) => new()
    {
        Id = shared.Trouble.Flag.Id,
        OpenedAt = shared.Calendar.Clock.Iso(shared.Trouble.Flag.OpenedAt),
        State = shared.Trouble.Flag.State == FlagState.Open ? "open" : "settled",
        Rank = shared.Trouble.Rank,
        Tank = null,
        Kind = FlagNames.NameOf(shared.Trouble.Flag.Kind),
        Reason = shared.Trouble.Reason,
        ExpectedLoss = Math.Round(shared.ExpectedLoss, 2),
        HoursLeft = HoursJson.Of(shared.Trouble.HoursLeft),
        Fish = shared.Fish,
        Tanks = [.. shared.Evidence.Tanks.Select(t => t.Code)],
        Urgency = FlagNames.NameOf(shared.Trouble.Flag.Urgency),
        Cause = CauseJson.Of(shared.Evidence),
    };

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

/// <summary>What tanks in a shared trouble have in common: <c>lot</c>, <c>run</c>, <c>area</c>, <c>water</c> or <c>chillerBatch</c>, and which.</summary>
public sealed record CauseJson(string By, string Code)
{
    public static CauseJson Of(SharedCauseEvidence evidence) => new(JsonNamingPolicy.CamelCase.ConvertName(evidence.By.ToString()), evidence.Code);
}

/// <summary>Hours with their 80% interval.</summary>
public sealed record HoursJson(double Low, double Mid, double High)
{
    public static HoursJson? Of(Band? band) =>
        band is { } b ? new HoursJson(Math.Round(b.Low, 2), Math.Round(b.Mid, 2), Math.Round(b.High, 2)) : null;
}

namespace Tankside.Portal.Shell.Help;

/// <summary>A walk through the pages that somebody of a role uses, in the order in which their work meets them. Each page says itself what it is for.</summary>
public static class Tours
{
    private static readonly Dictionary<string, string[]> Walks = new()
    {
        ["Teacher"] = ["/", "/tanks", "/calendar", "/weekend", "/labels", "/ledger", "/releases/bookings", "/me"],
        ["Coordinator"] = ["/", "/round", "/tanks", "/calendar", "/weekend", "/runs", "/kit", "/handover", "/rehearsal"],
        ["KitHand"] = ["/", "/kit", "/kit/spares", "/kit/depots", "/kit/stock", "/kit/failures", "/calendar", "/me"],
        ["ProgrammeLead"] = ["/", "/round", "/schools", "/lots", "/releases", "/totals", "/season", "/people", "/settings", "/changes"],
        ["AgencyContact"] = ["/", "/totals", "/agency", "/releases/bookings", "/me"],
    };

    public static IReadOnlyCollection<string> Roles => Walks.Keys;

    public static IReadOnlyList<string> Of(string? role) => role is not null && Walks.TryGetValue(role, out var walk) ? walk : [];

    /// <summary>The address of a step, counted from 1; null when the walk has no such step.</summary>
    public static string? At(string? role, int step) => Of(role) is var walk && step >= 1 && step <= walk.Count ? $"{walk[step - 1]}?tour={step}" : null;
}

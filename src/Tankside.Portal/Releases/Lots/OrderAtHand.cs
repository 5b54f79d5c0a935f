using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs;
using Tankside.Portal.Accounts;
using Tankside.Storage;

namespace Tankside.Portal.Releases.Lots;

/// <summary>What is asked of the order planner, as read from the address.</summary>
/// <param name="Wrong">What could not be read; null when all could.</param>
public sealed record OrderQuestion(int Wish, double SurePercent, double ReservePercent, int Pack, string? Wrong)
{
    public static OrderQuestion Read(string? wish, string? sure, string? reserve, string? pack, IReadOnlyDictionary<string, double> own)
    {
        var wrong = new List<string>();
        double Number(string? typed, double otherwise, double from, double to, string what)
        {
            if (string.IsNullOrWhiteSpace(typed))
            {
                return otherwise;
            }

            if (double.TryParse(typed.Trim().Replace(',', '.'), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var value) && value >= from && value <= to)
            {
                return value;
            }

            wrong.Add(string.Create(CultureInfo.InvariantCulture, $"“{typed.Trim()}” is no {what}: type a number from {from:0} to {to:0}."));
            return otherwise;
        }

        return new OrderQuestion(
            (int)Number(wish, 0, 1, 500_000, "number of fish"),
            Number(sure, 100 * own.Of(EggSettings.Certainty), 50, 99, "certainty in percent"),
            Number(reserve, 100 * own.Of(EggSettings.Reserve), 0, 100, "reserve in percent"),
            (int)Number(pack, Math.Max(1, own.Of(EggSettings.Pack)), 1, 100_000, "pack of eggs"),
            wrong.Count == 0 ? null : string.Join(" ", wrong));
    }
}

/// <summary>What the programme's own tanks tell about an order, over all its seasons.</summary>
public sealed class OrderAtHand(IDbContextFactory<HatcheryDb> databases, TotalsOfSeason totals)
{
    public async Task<(SurvivalKnown Known, IReadOnlyDictionary<string, double> Own)> LoadAsync(CurrentUser user, CancellationToken cancel)
    {
        var past = new List<PastTank>();
        foreach (var name in await totals.NamesAsync(user.ProgrammeId, cancel))
        {
            if (await totals.LoadAsync(user.ProgrammeId, name, cancel) is { } season)
            {
                past.AddRange(season.Tanks.Where(t => t.Balance is { StillInTank: 0, In: > 0 }).Select(t => new PastTank(t.Balance.In - t.Balance.TransferredOut, t.Balance.Released)));
            }
        }

        await using var db = await databases.CreateDbContextAsync(cancel);
        var own = await db.Settings.AsNoTracking().Where(s => s.ProgrammeId == user.ProgrammeId).ToDictionaryAsync(s => s.Key, s => s.Value, cancel);
        return (SurvivalKnown.From(past), own);
    }
}

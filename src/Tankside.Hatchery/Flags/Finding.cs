using Tankside.Science.Losses;
using Tankside.Science.Units;

namespace Tankside.Hatchery.Flags;

/// <summary>What a rule found true of a tank at a moment: the kind, how soon, what it stands on, and what is lost by waiting.</summary>
/// <param name="StandsOn">The instant of the newest fact it rests on; a settled flag is raised again only by newer facts.</param>
public sealed record Finding(FlagKind Kind, Urgency Urgency, DateTime StandsOn, Evidence Evidence, Hazard Hazard);

/// <summary>
/// How fish are lost if nobody acts. Kept as instants and shares, so that the order of the round can be worked out afresh at any
/// later moment without judging again.
/// </summary>
/// <param name="From">The instant the hours count from.</param>
/// <param name="HoursToHarm">80% interval of the hours until the loss, log-normal.</param>
/// <param name="ShareLost">Share of the tank's fish lost then.</param>
/// <param name="HoursLeft">Hours until a limit is passed, shown to people; null where time is not the question.</param>
public sealed record Hazard(DateTime From, Band HoursToHarm, double ShareLost, Band? HoursLeft)
{
    /// <summary>How wide a hazard spreads when only its middle is known: the 80% ends are a third and three times the middle (judgement).</summary>
    public static Hazard Around(DateTime from, double hours, double share) =>
        new(from, new Band(hours / 3, hours, hours * 3), share, null);

    /// <summary>
    /// Fish do not die on the stroke of a limit: the loss follows by <paramref name="tolerance"/> hours in the middle, a third to three times
    /// that at the ends. A tank whose limit passed in the night is therefore still worth a call.
    /// </summary>
    public static Hazard AfterLimit(DateTime from, Band hoursLeft, double tolerance, double share) => new(
        from,
        new Band(hoursLeft.Low + (tolerance / 3), hoursLeft.Mid + tolerance, hoursLeft.High + (tolerance * 3)),
        share,
        hoursLeft);

    /// <summary>Share of the tank's fish expected lost by <paramref name="instant"/>.</summary>
    public double LostBy(DateTime instant)
    {
        var hours = (instant - From).TotalHours;
        if (hours <= 0)
        {
            return 0;
        }

        if (HoursToHarm.Mid <= 0)
        {
            return ShareLost;
        }

        var (mu, sigma) = Lognormal.FromBand(HoursToHarm);
        return ShareLost * Lognormal.Cdf(hours, mu, sigma);
    }

    /// <summary>The hours left as they stand at a later moment; never below zero.</summary>
    public Band? HoursLeftAt(DateTime now)
    {
        if (HoursLeft is not { } band)
        {
            return null;
        }

        var passed = (now - From).TotalHours;
        return new Band(Math.Max(0, band.Low - passed), Math.Max(0, band.Mid - passed), Math.Max(0, band.High - passed));
    }
}

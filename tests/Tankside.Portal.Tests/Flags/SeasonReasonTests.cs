using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Portal.Flags;
using Tankside.Portal.Flags.FirstAidTexts;

namespace Tankside.Portal.Tests.Flags;

/// <summary>Reasons about dates, readiness and account, as the coordinator reads them at nine on a Wednesday.</summary>
public class SeasonReasonTests
{
    private static readonly DateTime Now = new(2027, 1, 20, 16, 0, 0, DateTimeKind.Utc);

    private static readonly DateOnly Today = new(2027, 1, 20);

    private static string Reason(FlagKind kind, Evidence evidence) =>
        new ReasonWords(new SchoolCalendar(ProgrammeClock.Of("America/Denver"), new TimeOnly(8, 0), new TimeOnly(15, 15), []), 150, Now, TemperatureUnit.C)
            .Of(new Finding(kind, Urgency.Today, Now, evidence, Hazard.Around(Now, 24, 0)));

    [Fact]
    public void An_early_hatch_says_how_early() => Assert.Equal(
        "Hatch was seen Wed 20 Jan, 4 days before half could be due (Sun 24 Jan at the earliest, Thu 28 Jan most likely): the dates of this tank are off; about 150 fish.",
        Reason(FlagKind.EarlyHatch, new EarlyHatchEvidence(LifeStage.Egg, Today, Today.AddDays(8), Today.AddDays(4))));

    [Fact]
    public void A_break_says_its_days_and_the_chance() => Assert.Equal(
        "Swim-up is due about Mon 8 Feb (Fri 5 Feb to Thu 11 Feb), with a chance of 93% too near to the break: first feeding needs to begin before Mon 1 Feb or after Sun 21 Feb, school is closed from Sat 13 Feb to Sun 21 Feb; about 150 fish.",
        Reason(FlagKind.FeedingNearBreak, new FeedingEvidence(
            LifeStage.Egg, false, Today.AddDays(19), Today.AddDays(16), Today.AddDays(22), Today.AddDays(12), Today.AddDays(24), Today.AddDays(32), 0.93)));

    [Theory]
    [InlineData(Unready.Unread, null, "no temperature was ever read")]
    [InlineData(Unready.Unread, 10.5, "nothing read since 08:00 (10.5 °C)")]
    [InlineData(Unready.OffSetPoint, 13.0, "13.0 °C at 08:00 with the set point at 10.5 °C")]
    [InlineData(Unready.NotProved, 10.5, "at its set point only since Tue 08:00, now 10.5 °C")]
    public void A_tank_that_is_not_ready_says_why(Unready why, double? water, string words) => Assert.Equal(
        $"Not ready for 200 eggs due Fri 22 Jan: {words}.",
        Reason(FlagKind.NotReady, new ReadinessEvidence(
            LifeStage.Egg, why, 200, Today.AddDays(2), water, water is null ? null : Now.AddHours(-1), why == Unready.NotProved ? Now.AddHours(-25) : null, 10.5)));

    [Theory]
    [InlineData(-12, true, false, "After the count: 12 more are counted out and in the tank than the 200 that came.")]
    [InlineData(80, true, false, "After the count: 80 of 200 are unaccounted, 40% where counting errs by 15%.")]
    [InlineData(80, false, true, "The tank is closed: 80 of 200 are unaccounted, 40% where counting errs by 15%.")]
    [InlineData(1, false, true, "The tank is closed: 1 of 200 is unaccounted,")]
    [InlineData(-5, false, false, "By its ledger: 5 more are counted out and in the tank than the 200 that came.")]
    public void An_account_says_what_is_missing_or_too_much(int unaccounted, bool counted, bool closed, string words) => Assert.StartsWith(
        words,
        Reason(FlagKind.Tally, new TallyEvidence(LifeStage.Egg, 200, unaccounted, counted ? Now : null, closed, 0.15)),
        StringComparison.Ordinal);

    [Fact]
    public void A_late_report_names_its_release_and_its_day() => Assert.Equal(
        "The release of 87 fish on Wed 6 Jan under permit P-7 is not reported as sent; it was due by Sat 16 Jan.",
        Reason(FlagKind.ReportLate, new ReportEvidence(LifeStage.Fry, new DateOnly(2027, 1, 6), new DateOnly(2027, 1, 16), 87, "P-7")));

    [Theory]
    [InlineData(FlagKind.EarlyHatch)]
    [InlineData(FlagKind.FeedingNearBreak)]
    [InlineData(FlagKind.NotReady)]
    [InlineData(FlagKind.Tally)]
    [InlineData(FlagKind.ReportLate)]
    public void Each_has_something_to_say_first_and_to_ask(FlagKind kind)
    {
        var card = FirstAid.For(new Finding(kind, Urgency.Today, Now, new EarlyHatchEvidence(LifeStage.Egg, Today, Today, Today), Hazard.Around(Now, 24, 0)), new AidTank(), "en");

        Assert.NotEmpty(card.Say);
        Assert.EndsWith("?", card.AskNext, StringComparison.Ordinal);
    }
}

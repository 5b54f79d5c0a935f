using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Portal.Flags.FirstAidTexts;
using Tankside.Science.Units;

namespace Tankside.Portal.Tests.Flags;

/// <summary>What is still to come, and what has passed, is told as that in both languages. Said on a Tuesday at 15:00, read before, during and after the hours.</summary>
public class PassedTimeReasonTests
{
    private static readonly SchoolCalendar Calendar = new(ProgrammeClock.Of("America/Denver"), new TimeOnly(8, 0), new TimeOnly(15, 15), []);

    private static readonly DateTime Said = new(2027, 1, 19, 22, 0, 0, DateTimeKind.Utc);

    private static readonly Band Hours = new(2, 4, 9);

    private static ChillerEvidence ChillerOff(double? waterC = 10.6, bool allStopped = false) => new(
        LifeStage.Egg, Said, waterC, 10.5, allStopped, new PassTimes(Said.AddHours(2), Said.AddHours(4), Said.AddHours(9)), 15);

    private static string Reason(FlagKind kind, Evidence evidence, double hoursLater, string language) => Reasons.Of(
        new Finding(kind, Urgency.ActNow, Said, evidence, Hazard.AfterLimit(Said, Hours, 2, 0.7)), Calendar, TemperatureUnit.C, 200, Said.AddHours(hoursLater), language, OwnTexts.None);

    [Theory]
    [InlineData(0, "en", "; could pass 15.0 °C from 17:00;")]
    [InlineData(3, "en", "; may have passed 15.0 °C already;")]
    [InlineData(18, "en", "; should have passed 15.0 °C by 00:00;")]
    [InlineData(0, "es", "; podría pasar de 59 °F (15 °C) desde las 17:00;")]
    [InlineData(3, "es", "; quizá ya pasó de 59 °F (15 °C);")]
    [InlineData(18, "es", "; ya debe haber pasado de 59 °F (15 °C), a más tardar a las 00:00;")]
    public void A_limit_is_told_by_whether_its_hours_are_over(double hoursLater, string language, string words) =>
        Assert.Contains(words, Reason(FlagKind.ChillerFault, ChillerOff(waterC: 13), hoursLater, language), StringComparison.Ordinal);

    [Theory]
    [InlineData(0, "en", "; air for about 2 to 9 hours, so until 17:00 at least;")]
    [InlineData(3, "en", "; the air may be used up since 17:00;")]
    [InlineData(18, "en", "; the air is probably used up since Tue 19:00;")]
    [InlineData(0, "es", "; aire al menos hasta las 17:00;")]
    [InlineData(3, "es", "; el aire quizá se acabó, desde las 17:00;")]
    [InlineData(18, "es", "; el aire probablemente se acabó, desde el mar 19 ene a las 19:00;")]
    public void Air_is_told_by_whether_its_hours_are_over(double hoursLater, string language, string words) =>
        Assert.Contains(words, Reason(FlagKind.PumpFault, new FlowEvidence(LifeStage.Fry, Said, true, true, false, 11, 200), hoursLater, language), StringComparison.Ordinal);

    [Theory]
    [InlineData(false, "en", "12 dead in 2 days to Tue 19 Jan where about 1.5 would be usual; eggs; about 200 fish left; school closes 15:15.")]
    [InlineData(true, "en", "A slow rise: 12 dead in 2 days to Tue 19 Jan where about 1.5 would be usual; eggs; about 200 fish left; school closes 15:15.")]
    [InlineData(false, "es", "12 muertos en 2 días hasta el mar 19 ene, cuando lo usual sería cerca de 1,5; huevos; quedan unos 200 peces; la escuela cierra a las 15:15.")]
    [InlineData(true, "es", "Un aumento lento: 12 muertos en 2 días hasta el mar 19 ene, cuando lo usual sería cerca de 1,5; huevos; quedan unos 200 peces; la escuela cierra a las 15:15.")]
    public void Deaths_are_told_with_the_bell_and_a_slow_rise_by_its_name(bool rising, string language, string words) => Assert.Equal(
        words, Reason(FlagKind.DieOff, new LossEvidence(LifeStage.Egg, 12, 2, new DateOnly(2027, 1, 19), 1.5, 0.001, 200, rising), 0, language));

    [Fact]
    public void A_question_ends_its_sentence_and_is_not_asked_where_the_pump_is_off_too()
    {
        Assert.StartsWith(
            "The chiller is said to be off since 15:00, water still 10.6 °C: is it resting or broken? Could pass 15.0 °C from 17:00; eggs; about 200 fish",
            Reason(FlagKind.ChillerFault, ChillerOff(), 0, "en"), StringComparison.Ordinal);
        Assert.StartsWith(
            "The chiller is said to be off since 15:00, water still 10.6 °C: is it resting or broken? Eggs; about 200 fish",
            Reason(FlagKind.ChillerFault, ChillerOff() with { PassesAt = null, Limit = null }, 0, "en"), StringComparison.Ordinal);
        Assert.StartsWith(
            "Chiller and pump are both off since 15:00, water still 10.6 °C; could pass 15.0 °C from 17:00; eggs",
            Reason(FlagKind.ChillerFault, ChillerOff(allStopped: true), 0, "en"), StringComparison.Ordinal);
    }
}

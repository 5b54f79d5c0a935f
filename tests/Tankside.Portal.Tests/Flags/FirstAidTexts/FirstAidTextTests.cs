using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Portal.Flags.FirstAidTexts;
using Tankside.Portal.Places;
using Tankside.Science.Units;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Flags.FirstAidTexts;

/// <summary>The text that is sent or copied: whole for a mail, cut for a text message without losing its guard.</summary>
public class FirstAidTextTests
{
    private const string Seen = "61 °F (16.1 °C) at 14:45, over the 59 °F (15.0 °C) limit for alevins; about 148 fish; school closes 15:15.";

    private static readonly AidSender From = new(new Uri("https://tankside.alder-basin.example.org/tanks/A007/reading"), "Ines Okafor, +1 555 0100");

    private static readonly TankPlace Place = PlaceOf("Birch Lane Elementary and Middle School");

    public static TheoryData<string> Languages => [.. Bilingual.Languages];

    private static TankPlace PlaceOf(string school)
    {
        var world = new TestWorld().One;
        var tank = new Tank { Id = Guid.NewGuid(), ProgrammeId = world.Programme.Id, ClassroomId = world.Rooms[0].Id, Code = "A007", Litres = 208, SetPointC = 10.5 };
        var calendar = new SchoolCalendar(ProgrammeClock.Of(world.Programme.TimeZone), new TimeOnly(8, 0), new TimeOnly(15, 15), []);
        world.Schools[0].Name = school;
        return new TankPlace(tank, world.Rooms[0], world.Schools[0], world.Programme, calendar, new Dictionary<string, double>());
    }

    private static FirstAidText Compose(AidCase one, string language, string reason = Seen) =>
        FirstAidText.Compose(one.Script.In(language), one.Kind, Place, reason, From, language);

    [Theory, MemberData(nameof(Languages))]
    public void The_brief_text_fits_keeps_its_guard_and_says_the_first_steps(string language)
    {
        Assert.All(AidCases.All, one =>
        {
            var card = one.Script.In(language);
            var lines = Compose(one, language).Brief.Split('\n');
            var steps = lines.Where(l => l.Length > 2 && char.IsAsciiDigit(l[0]) && l[1] == '.' && l[2] == ' ').ToList();

            Assert.InRange(lines.Sum(l => l.Length) + lines.Length - 1, 100, 480);
            Assert.InRange(steps.Count, 2, 3);
            Assert.Equal(card.Say.Take(steps.Count).Select((s, i) => $"{i + 1}. {s}"), steps);
            Assert.EndsWith("/tanks/A007/reading", lines[^1], StringComparison.Ordinal);
            Assert.True(card.Guard is null || lines.Contains(card.Guard), card.Guard);
            Assert.Contains("A007", lines[0], StringComparison.Ordinal);
        });
    }

    [Fact]
    public void What_does_not_fit_is_left_out_whole()
    {
        var warm = AidCases.All.First(c => c.Kind == FlagKind.Warm);

        Assert.Contains("61 °F at 14:45.\n1. ", Compose(warm, "en", "61 °F at 14:45.").Brief, StringComparison.Ordinal);
        Assert.DoesNotContain("xxx", Compose(warm, "en", new string('x', 400)).Brief, StringComparison.Ordinal);
        Assert.Contains(new string('x', 400), Compose(warm, "en", new string('x', 400)).Full, StringComparison.Ordinal);
    }

    [Theory, MemberData(nameof(Languages))]
    public void The_mail_says_all_of_it_in_order(string language)
    {
        Assert.All(AidCases.All, one =>
        {
            var card = one.Script.In(language);
            var full = Compose(one, language).Full;
            string[] inOrder = [Seen, .. card.Say.Select((s, i) => $"\n{i + 1}. {s}\n"), card.AskNext, .. card.Cautions, From.ReadingPage.AbsoluteUri, "Ines Okafor, +1 555 0100."];
            var places = inOrder.Select(part => full.IndexOf(part, StringComparison.Ordinal)).ToList();

            Assert.DoesNotContain(-1, places);
            Assert.Equal(places.Order(), places);
        });
    }

    [Fact]
    public void It_greets_without_a_name_and_says_which_tank()
    {
        var warm = AidCases.All.First(c => c.Kind == FlagKind.Warm);

        Assert.Equal("Hello, this is about tank A007, Room 1, Birch Lane Elementary and Middle School: warm water.", Compose(warm, "en").FirstLine);
        Assert.Equal("Hola, se trata del tanque A007, Room 1, Birch Lane Elementary and Middle School: agua caliente.", Compose(warm, "es").FirstLine);
        Assert.StartsWith(Compose(warm, "es").FirstLine, Compose(warm, "es").Full, StringComparison.Ordinal);
        Assert.Equal("Primeros auxilios, tanque A007: agua caliente", Compose(warm, "es").Subject);
        Assert.Contains("Lo que vemos: ", Compose(warm, "es").Full, StringComparison.Ordinal);
    }

    [Fact]
    public void The_reason_has_the_same_numbers_in_Spanish()
    {
        var at = TestWorld.Now.AddMinutes(-30);
        var warm = new Finding(
            FlagKind.Warm, Urgency.ActNow, at, new TemperatureEvidence(LifeStage.Alevin, 16.1, at, 15, at.AddDays(-1), 10.5), Hazard.Around(at, 24, 0.3));

        Assert.Equal(
            "61 °F (16,1 °C) a las 07:45, desde el mar 2 feb a las 07:45 por encima del límite de 59 °F (15 °C) para alevines; unos 148 peces; la escuela cierra a las 15:15.",
            Reason(warm, 148, TestWorld.Now, "es"));
        Assert.StartsWith("61 °F (16.1 °C) at 07:45, since Tue 07:45 over the 59 °F (15.0 °C) limit for alevins; about 148 fish", Reason(warm, 148, TestWorld.Now, "en"), StringComparison.Ordinal);
    }

    private static string Reason(Finding finding, int fish, DateTime now, string language) =>
        Reasons.Of(finding, Place.Calendar, Place.Programme.ScreenUnit, fish, now, language, OwnTexts.None);

    [Fact]
    public void Time_left_is_said_in_Spanish_too()
    {
        var now = TestWorld.Now;
        var rising = new WarmingEvidence(
            LifeStage.Egg, 13, now, 12, now.AddHours(-1), 1, true, 15, new PassTimes(now.AddHours(1), now.AddHours(2), now.AddHours(4)), 22);
        var stopped = new Finding(
            FlagKind.PumpFault, Urgency.ActNow, now, new FlowEvidence(LifeStage.Fry, now, true, true, false, 11, 140), Hazard.AfterLimit(now, new Band(2, 3, 6), 1, 0.8));

        Assert.Equal(
            "55,4 °F (13 °C) a las 08:15 y sube 1,8 °F (1,0 °C) por hora; pasa de 59 °F (15 °C) hacia las 10:15; actúe a más tardar a las 09:15; unos 1.480 peces; la escuela cierra a las 15:15.",
            Reason(stopped with { Kind = FlagKind.WarmingFast, Evidence = rising }, 1480, now, "es"));
        Assert.Equal(
            "El agua está quieta y no hay burbujas desde las 08:15; aire al menos hasta las 10:15; unos 140 peces; la escuela cierra a las 15:15.",
            Reason(stopped, 140, now, "es"));
    }

    /// <summary>Whoever adds a kind of evidence adds its Spanish sentence: without one the name of the trouble has to do.</summary>
    [Fact]
    public void Every_kind_of_evidence_has_a_Spanish_sentence()
    {
        var kinds = typeof(Evidence).Assembly.GetTypes().Where(t => t.IsSubclassOf(typeof(Evidence)) && !t.IsAbstract).ToList();

        Assert.NotEmpty(kinds);
        Assert.All(kinds, kind =>
        {
            var empty = kind == typeof(SharedCauseEvidence)
                ? AidCases.Shared(LifeStage.Egg, SharedBy.Lot)
                : (Evidence)System.Runtime.CompilerServices.RuntimeHelpers.GetUninitializedObject(kind);
            var finding = new Finding(FlagKind.Tally, Urgency.Today, TestWorld.Now, empty, Hazard.Around(TestWorld.Now, 1, 0.1));
            Assert.DoesNotContain(", visto ", Reason(finding, 10, TestWorld.Now, "es"), StringComparison.Ordinal);
        });
    }
}

using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Flags.Rehearsals;

namespace Tankside.Hatchery.Tests.Flags.Rehearsals;

public class MadeUpMorningTests
{
    [Fact]
    public void The_same_seed_is_the_same_morning_to_the_last_reading()
    {
        var (one, again) = (Rehearsing.Morning(4711), Rehearsing.Morning(4711));

        Assert.Equal(one.Start, again.Start);
        Assert.Equal(one.Tanks.Select(Told), again.Tanks.Select(Told));
        Assert.NotEqual(one.Tanks.Select(Told), Rehearsing.Morning(4712).Tanks.Select(Told));
    }

    [Fact]
    public void A_known_seed_is_the_morning_it_always_was()
    {
        var morning = Rehearsing.Morning(4711);

        Assert.Equal(
            "2027-02-18 15:50 Well:221 RestingChiller:104 Well:70 Well:225 EverythingStopped:109 Well:163 StillBasket:154 Well:178 Well:146 "
            + "IcedCoil:165 LateHatch:222 Well:171 SchoolClosed:138 SchoolClosed:219 Well:109 DieOff:107 RisingFast:138 WorriedNote:191 "
            + "AcidAmmonia:87 Well:124 Well:190 HeldHot:96 AmmoniaWithoutPh:78 FoamAfterHatch:129",
            $"{morning.Start:yyyy-MM-dd HH:mm} {string.Join(' ', morning.Tanks.Select(t => $"{t.Story}:{t.Fish}"))}");
    }

    [Fact]
    public void Twenty_four_tanks_stand_in_twelve_rooms_in_the_order_of_their_codes() => Assert.All(Mornings.Twenty, morning =>
    {
        Assert.Equal(24, morning.Tanks.Count);
        Assert.Equal(12, morning.Tanks.Select(t => t.Room).Distinct().Count());
        Assert.Equal(morning.Tanks.Select(t => t.Code).Order(StringComparer.Ordinal), morning.Tanks.Select(t => t.Code));
    });

    [Fact]
    public void Seven_to_nine_are_in_trouble_by_the_rules_of_at_least_six_stories_and_no_two_in_one_room() => Assert.All(Mornings.Twenty, morning =>
    {
        var troubled = morning.Troubled.ToList();

        Assert.InRange(troubled.Count, 7, 9);
        Assert.True(troubled.Select(t => t.Story).Distinct().Count() >= 6);
        Assert.Equal(troubled.Count, troubled.Select(t => t.Room).Distinct().Count());
    });

    [Fact]
    public void Over_twenty_mornings_every_kind_that_its_catalogue_has_is_found()
    {
        var kinds = Mornings.Twenty.SelectMany(m => m.Troubled).SelectMany(t => t.Findings).Select(f => f.Kind).ToHashSet();

        Assert.Superset(
            new HashSet<FlagKind>(
            [
                FlagKind.Warm, FlagKind.Cold, FlagKind.IcedCoil, FlagKind.WarmingFast, FlagKind.ChillerFault, FlagKind.PumpFault, FlagKind.Ammonia,
                FlagKind.DieOff, FlagKind.LateHatch, FlagKind.Silent,
            ]),
            kinds);
    }

    [Fact]
    public void The_rules_find_in_each_tank_what_its_story_put_there_and_nothing_in_a_quiet_one()
    {
        var wrong = Mornings.TwoHundred.SelectMany(m => m.Tanks.Select(t => (m.Seed, Tank: t)))
            .Where(t => Stories.KindOf(t.Tank.Story) is { } kind ? t.Tank.Findings.All(f => f.Kind != kind)
                : t.Tank.Story == Story.Well ? t.Tank.Findings.Count > 0
                : t.Tank.Findings.Any(f => f.Urgency == Urgency.ActNow))
            .Select(t => $"{t.Seed} {t.Tank.Code} {t.Tank.Story} {t.Tank.Record.Lot!.Code}: {string.Join(' ', t.Tank.Findings.Select(f => f.Kind))}");

        Assert.Empty(wrong);
    }

    [Fact]
    public void Every_morning_has_traps_that_look_loud_and_are_harmless() => Assert.All(Mornings.Twenty, morning =>
        Assert.Equal(4, morning.Tanks.Count(t => Stories.Harmless.Contains(t.Story))));

    [Fact]
    public void Nothing_is_read_after_the_coordinator_has_begun_or_while_a_school_is_shut() => Assert.All(Mornings.Twenty, morning =>
        Assert.All(morning.Tanks, tank => Assert.All(tank.Record.Recent, r =>
        {
            var window = tank.Room.Calendar.WindowOf(morning.Clock.Day(r.At));
            Assert.True(r.At < morning.Start);
            Assert.True(tank.Room.Calendar.IsSchoolDay(morning.Clock.Day(r.At)) && window.Opens <= r.At && r.At <= window.Closes, $"{morning.Seed} {tank.Code} {r.At:o}");
        })));

    private static string Told(MadeUpTank tank) =>
        $"{tank.Code} {tank.Story} {tank.Fish} {tank.Record.Tank} {tank.Record.Lot} {string.Join(';', tank.Record.Recent.Select(r => $"{r.At:o} {r.Seen}"))}";
}

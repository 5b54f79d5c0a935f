using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Readings;

namespace Tankside.Hatchery.Tests.Flags;

public class LastWordTests
{
    private static ReadingFact Said(int hour, Observation seen, bool byClass) => new(TankStory.At(0, hour), seen, byClass);

    [Fact]
    public void The_newest_word_on_the_trouble_is_the_last()
    {
        var (adult, room) = (Said(9, new Observation { WaterC = 16 }, false), Said(10, new Observation { WaterC = 10 }, true));

        Assert.True(LastWord.IsClass(FlagKind.Warm, [adult, room]));
        Assert.False(LastWord.IsClass(FlagKind.Warm, [room, adult]));
        Assert.False(LastWord.IsClass(FlagKind.Warm, []));
    }

    public static TheoryData<FlagKind, Observation> Words => new()
    {
        { FlagKind.Warm, new Observation { WaterC = 10 } },
        { FlagKind.Cold, new Observation { WaterC = 10 } },
        { FlagKind.WarmingFast, new Observation { WaterC = 10 } },
        { FlagKind.IcedCoil, new Observation { IceOnCoil = false } },
        { FlagKind.IcedCoil, new Observation { WaterC = 10 } },
        { FlagKind.ChillerFault, new Observation { ChillerRunning = true } },
        { FlagKind.ChillerFault, new Observation { WaterC = 10 } },
        { FlagKind.PumpFault, new Observation { Moving = true } },
        { FlagKind.PumpFault, new Observation { Bubbles = true } },
        { FlagKind.Ammonia, new Observation { AmmoniaTotalMgL = 0 } },
        { FlagKind.Ammonia, new Observation { Ph = 7 } },
        { FlagKind.LowOxygen, new Observation { OxygenMgL = 10 } },
        { FlagKind.LowOxygen, new Observation { Gasping = false } },
        { FlagKind.Nitrite, new Observation { NitriteMgL = 0 } },
        { FlagKind.Chlorine, new Observation { ChlorineMgL = 0 } },
        { FlagKind.Chlorine, new Observation { Gasping = false } },
        { FlagKind.Metals, new Observation { DeadAlevins = 0 } },
        { FlagKind.PhSag, new Observation { Ph = 7 } },
        { FlagKind.Fungus, new Observation { Fungus = false } },
        { FlagKind.Contradictory, new Observation { Hatched = Share.Some } },
        { FlagKind.Contradictory, new Observation { Fed = false } },
        { FlagKind.StuckThermometer, new Observation { WaterC = 10 } },
        { FlagKind.DieOff, new Observation { DeadEggs = 0 } },
        { FlagKind.DieOff, new Observation { DeadAlevins = 0 } },
        { FlagKind.DieOff, new Observation { DeadFry = 0 } },
        { FlagKind.LateHatch, new Observation { Hatched = Share.Some } },
        { FlagKind.LateHatch, new Observation { Swimming = Share.Some } },
    };

    [Theory]
    [MemberData(nameof(Words))]
    public void A_word_on_something_else_is_no_word_on_the_trouble(FlagKind kind, Observation speaks)
    {
        var adult = Said(9, speaks, false);
        var elsewhere = Said(10, new Observation { RoomC = 21, Clear = true }, true);

        Assert.False(LastWord.IsClass(kind, [adult, elsewhere]));
        Assert.True(LastWord.IsClass(kind, [adult, Said(10, speaks, true)]));
    }

    [Fact]
    public void Any_word_ends_a_silence() =>
        Assert.True(LastWord.IsClass(FlagKind.Silent, [Said(9, new Observation { WaterC = 10 }, false), Said(10, new Observation { Note = "Hello" }, true)]));
}

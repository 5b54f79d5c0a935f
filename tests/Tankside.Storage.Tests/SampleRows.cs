using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Hatchery.Releases;
using Tankside.Science.Eggs;
using Tankside.Science.Units;
using Tankside.Storage.Readings;
using Tankside.Testing;

namespace Tankside.Storage.Tests;

/// <summary>
/// Rows of every kind that the small world does not hold already, each filled in to the last field, and once more with everything left
/// out that may be.
/// </summary>
internal static class SampleRows
{
    public static readonly DateTime At = new(2027, 2, 3, 15, 15, 7, 123, DateTimeKind.Utc);

    public static readonly Observation EverythingSeen = new()
    {
        WaterC = 9.44,
        RoomC = 20.5,
        Moving = true,
        Bubbles = false,
        LevelOk = true,
        Clear = false,
        ChillerRunning = true,
        IceOnCoil = false,
        DeadEggs = 2,
        DeadAlevins = 0,
        DeadFry = 1,
        Hatched = Share.Most,
        Swimming = Share.Some,
        Fed = true,
        Fungus = false,
        Gasping = true,
        Ph = 7.2,
        AmmoniaTotalMgL = 0.25,
        NitriteMgL = 0.05,
        OxygenMgL = 10.1,
        ChlorineMgL = 0.02,
        WaterChangedPercent = 25,
        FeelsWarm = true,
        WaterOnFloor = false,
        Note = "Agua fría, 52 °F — “clear”",
    };

    public static IReadOnlyList<object> Of(TestProgramme p) =>
    [
        .. OfPeopleAndPlaces(p),
        .. SampleActs.Of(p),
        .. SampleLetters.Of(p),
        .. SampleRuns.Of(p),
        new Allotment { Id = Guid.NewGuid(), SeasonId = p.Season.Id, TankId = p.Tanks[0].Id, LotId = p.Lot.Id, Eggs = 150, DeliveryOn = new DateOnly(2027, 1, 12) },
        new Receipt
        {
            Id = Guid.NewGuid(), SeasonId = p.Season.Id, TankId = p.Tanks[1].Id, LotId = p.Lot.Id, At = At, Run = "R2", Eggs = 120,
            DeadOnArrival = 3, CountedBy = CountMethod.Weight, BoxC = 6.5, TankC = 10.25, Note = "box sweating",
        },
        FullReading(p),
        new Reading { SenderId = Guid.NewGuid(), TankId = p.Tanks[0].Id, At = At, ReceivedAt = At, Seen = new Observation(), ContentHash = "0" },
        new TankDay
        {
            TankId = p.Tanks[0].Id, Day = new DateOnly(2027, 2, 3), Readings = 3, FirstAt = At.AddHours(-6), LastAt = At,
            SquaredGapHours = 18.25, WaterReadings = 2, MeanC = 9.4375, MinC = 9.1, MaxC = 9.8,
            DeadEggs = 2, DeadAlevins = 0, DeadFry = 1, Hatched = Share.Half, Swimming = Share.None,
        },
        new TankDay { TankId = p.Tanks[1].Id, Day = new DateOnly(2027, 2, 3), Readings = 1, FirstAt = At, LastAt = At },
        new DayFacts { TankId = p.Tanks[0].Id, Day = new DateOnly(2027, 2, 3), Packed = FactPack.Write([new ReadingFact(At, new Observation { WaterC = 9.4 }, true)]) },
        new PastDays { TankId = p.Tanks[0].Id, Until = new DateOnly(2027, 1, 27), Packed = DayPack.Write([]) },
        new UnjudgedFact { TankId = p.Tanks[0].Id, At = At },
        new WaysStamp { ProgrammeId = Guid.NewGuid(), Stamp = long.MinValue },
        .. OfReleases(p),
        FullFlag(p),
        NewFlag(p, FlagKind.Cold, SampleEvidence.All[0]),
    ];

    public static Flag NewFlag(TestProgramme p, FlagKind kind, Evidence evidence) => new()
    {
        Id = Guid.NewGuid(),
        ProgrammeId = p.Programme.Id,
        TankId = p.Tanks[0].Id,
        Kind = kind,
        Urgency = Urgency.Today,
        OpenedAt = At,
        UpdatedAt = At,
        StandsOn = At,
        Evidence = evidence,
        Hazard = Hazard.Around(At, 24, 0.3),
        RuleVersion = "2026.1",
    };

    private static IEnumerable<object> OfPeopleAndPlaces(TestProgramme p) =>
    [
        new ProgrammeSetting { ProgrammeId = p.Programme.Id, Key = "warm.look.egg", Value = 12.5 },
        new OwnText { ProgrammeId = p.Programme.Id, Key = "aid.warm.ask", En = "Is the blind down?", Es = "¿Está baja la persiana?" },
        new Invitation
        {
            Id = Guid.NewGuid(), ProgrammeId = p.Programme.Id, Email = "new@example.test", Role = Role.Teacher, SchoolId = p.Schools[0].Id,
            SecretHash = "ab12", InvitedAt = At, InvitedBy = p.People[Role.ProgrammeLead].Id, ExpiresAt = At + Invitation.Lifetime,
            AcceptedAt = At.AddHours(1), WithdrawnAt = At.AddHours(2), Name = "Ines Vale",
        },
        new SetUpLink { Id = Guid.NewGuid(), Secret = "s3cret", ExpiresAt = At + SetUpLink.Lifetime, UsedAt = At, ForAnother = true },
        new Closure
        {
            Id = Guid.NewGuid(), ProgrammeId = p.Programme.Id, SchoolId = p.Schools[0].Id, FirstDay = new DateOnly(2027, 2, 15),
            LastDay = new DateOnly(2027, 2, 16), Reason = "Holiday",
        },
        new School
        {
            Id = Guid.NewGuid(), ProgrammeId = p.Programme.Id, Name = "Heron Ford", Area = "east", OpensAt = new TimeOnly(7, 50), ClosesAt = new TimeOnly(14, 40),
            DeliverFrom = new TimeOnly(9, 0), DeliverBy = new TimeOnly(13, 30), BellTimes = "recess 10:15", DoorNotes = "blue door", WaterNotes = "old pipes",
            Disinfectant = Disinfectant.None, WaterSupply = "own well", Latitude = 44.1, Longitude = -113.2, ElevationM = 1420, DistanceKm = 7.5,
        },
        new SeasonTank { SeasonId = p.Season.Id, TankId = p.Tanks[0].Id, School = "Birch Lane School", Room = "Room 1" },
        new TakenOutPlace
        {
            Id = Guid.NewGuid(), ProgrammeId = p.Programme.Id, Thing = PlaceThing.Room, Name = "Room 9", Content = "{}", TakenAt = At,
            TakenBy = p.People[Role.Coordinator].Id,
        },
        new Tank
        {
            Id = Guid.NewGuid(), ProgrammeId = p.Programme.Id, ClassroomId = p.Rooms[0].Id, Code = "A900", Litres = 113.6,
            Jacket = Science.Heat.Jacket.Foam, SetPointC = 11.1, RoomC = 19.5, UsualUnit = TemperatureUnit.C, ChillerBatch = "C7", TestKitBatch = "K3", ClosedAt = At,
        },
        new RoomCode { Id = Guid.NewGuid(), TankId = p.Tanks[0].Id, Code = "23456789bcdf", IssuedAt = At, PrintedAt = At.AddHours(1), RevokedAt = At.AddDays(1) },
        new EggLot
        {
            Id = Guid.NewGuid(), ProgrammeId = p.Programme.Id, SeasonId = p.Season.Id, Code = "L9", Species = Species.ChinookSalmon,
            Strain = "fall", Ploidy = "triploid", Source = "State hatchery", FertilisedFrom = new DateOnly(2026, 12, 1),
            FertilisedTo = new DateOnly(2026, 12, 4), HatcheryMeanC = 8.7, KnownBy = StartKnownBy.ThermalUnits, DailyC = "8.5;8.75",
            UnitsC = 210.5, UnitsOn = new DateOnly(2026, 12, 28), UnitsTyped = "379 °F-days since spawning", EyedOn = new DateOnly(2026, 12, 26),
            ShockedOn = new DateOnly(2026, 12, 27), PickedOn = new DateOnly(2026, 12, 28), HealthCertificate = "FH-12", Disinfection = "iodophor, 29 Dec", Note = "late-eyed",
        },
        new OwnStageTable
        {
            Id = Guid.NewGuid(), ProgrammeId = p.Programme.Id, Species = Species.CutthroatTrout, Stage = Stage.Hatch,
            Points = OwnStageTable.Write([(6, 60), (10.5, 31.5)]), Source = "our own three seasons", EnteredAt = At, EnteredBy = p.People[Role.Coordinator].Id,
        },
        new AllotmentChange
        {
            Id = Guid.NewGuid(), SeasonId = p.Season.Id, TankId = p.Tanks[0].Id, LotBefore = Guid.NewGuid(), LotAfter = Guid.NewGuid(), EggsBefore = 150,
            EggsAfter = 200, DayBefore = new DateOnly(2027, 1, 12), DayAfter = new DateOnly(2027, 1, 15), At = At, By = p.People[Role.Coordinator].Id, Why = "a second basket",
        },
        new ReadyCheck
        {
            Id = Guid.NewGuid(), SeasonId = p.Season.Id, TankId = p.Tanks[0].Id, At = At, By = p.People[Role.Teacher].Id, CoilDown = true, ProbeInWater = true,
            TubesFree = true, FilterCovered = true, GravelClean = true, WaterSafe = true, Note = "stood for two days",
        },
        new ReadyOverride
        {
            Id = Guid.NewGuid(), SeasonId = p.Season.Id, TankId = p.Tanks[0].Id, At = At, By = p.People[Role.Coordinator].Id, SignedAs = "C. Ordinator",
            Reason = "cold since yesterday", WithdrawnAt = At.AddHours(1),
        },
    ];

    private static Reading FullReading(TestProgramme p) => new()
    {
        SenderId = Guid.NewGuid(),
        TankId = p.Tanks[0].Id,
        At = At,
        ReceivedAt = At.AddMinutes(4),
        Source = ReadingSource.PhoneCall,
        EnteredBy = p.People[Role.Coordinator].Id,
        State = ReadingState.Asked,
        Seen = EverythingSeen,
        TypedWater = "49,0",
        TypedUnit = TemperatureUnit.F,
        DoubtfulField = "waterC",
        Doubt = Doubt.OtherScale,
        ConfirmedBy = "class",
        Corrects = Guid.NewGuid(),
        CorrectedBy = Guid.NewGuid(),
        ContentHash = ReadingHash.Of(At, EverythingSeen, null),
    };

    private static IEnumerable<object> OfReleases(TestProgramme p)
    {
        var (booking, rows) = SampleBookings.Of(p);
        foreach (var row in rows)
        {
            yield return row;
        }

        var release = new Release
        {
            Id = Guid.NewGuid(),
            SeasonId = p.Season.Id,
            TankId = p.Tanks[0].Id,
            SiteId = p.Site.Id,
            PermitId = p.Permit.Id,
            At = At,
            Fish = 87,
            About = true,
            TankC = 11.2,
            StreamC = 9.8,
            EnteredBy = p.People[Role.Teacher].Id,
            EnteredAt = At,
            Note = "tempered 40 minutes",
            ReportedAt = At.AddDays(3),
            ReportedBy = p.People[Role.Coordinator].Id,
            BookingId = booking.Id,
            SignedAs = "Teo Acher",
            SignedAt = At,
        };
        yield return release;
        yield return new LedgerEntry
        {
            SeasonId = p.Season.Id,
            TankId = p.Tanks[0].Id,
            Kind = LedgerKind.Released,
            Count = -3,
            At = At,
            EnteredAt = At.AddMinutes(1),
            EnteredBy = p.People[Role.Teacher].Id,
            CountedBy = CountMethod.Estimate,
            About = true,
            Reading = Guid.NewGuid(),
            ReleaseId = release.Id,
            TransferId = Guid.NewGuid(),
            CorrectsId = 1,
            Note = "three went back into the bucket",
        };
    }

    private static Flag FullFlag(TestProgramme p)
    {
        var flag = NewFlag(p, FlagKind.WarmingFast, SampleEvidence.All[2]);
        flag.State = FlagState.Settled;
        flag.Urgency = Urgency.ActNow;
        flag.SettledAt = At.AddHours(3);
        flag.Settlement = Settlement.Closed;
        flag.Hazard = new Hazard(At, new Band(2.5, 6.25, 19), 0.7, new Band(1.5, 5.25, 18));
        flag.TakenBy = p.People[Role.Coordinator].Id;
        flag.TakenAt = At.AddHours(1);
        flag.SaidOverAt = At.AddHours(2);
        flag.Turn = 4;
        return flag;
    }
}

using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Hatchery.Readings.SetPoints;
using Tankside.Hatchery.Releases;
using Tankside.Testing;

namespace Tankside.Storage.Tests;

/// <summary>Rows of what people do and send: letters, drafts, marked areas, kit, rehearsals, and a flag over several tanks.</summary>
internal static class SampleActs
{
    private static readonly DateTime At = SampleRows.At;

    public static IReadOnlyList<object> Of(TestProgramme p)
    {
        var coordinator = p.People[Role.Coordinator].Id;
        var sweep = new AreaSweep
        {
            Id = Guid.NewGuid(),
            ProgrammeId = p.Programme.Id,
            Area = "north",
            Reason = SweepReason.PowerCut,
            From = At,
            Until = At.AddHours(6),
            Note = "line down at the river",
            MarkedBy = coordinator,
            MarkedAt = At,
            EndedAt = At.AddHours(4),
            EndedBy = coordinator,
        };
        var import = new ReadingImport
        {
            Id = Guid.NewGuid(),
            ProgrammeId = p.Programme.Id,
            FileName = "Lecturas de enero.xlsx",
            SentBy = coordinator,
            SentAt = At,
            State = ImportState.Undone,
            Columns = """{"water":3}""",
            Rows = 6,
            Handled = 6,
            Accepted = 2,
            Asked = 1,
            Duplicates = 1,
            Refused = 1,
            Blank = 1,
            FinishedAt = At.AddMinutes(1),
            UndoneAt = At.AddHours(1),
            UndoneBy = coordinator,
        };
        var places = new PlaceImport
        {
            Id = Guid.NewGuid(),
            ProgrammeId = p.Programme.Id,
            FileName = "Escuelas.xlsx",
            Holds = PlaceSheet.Rooms,
            SentBy = coordinator,
            SentAt = At,
            State = PlaceImportState.Undone,
            Columns = """{"Meanings":["school"]}""",
            Added = 3,
            Changed = 2,
            Unchanged = 1,
            Refused = 4,
            StoredAt = At.AddMinutes(1),
            StoredBy = coordinator,
            UndoneAt = At.AddHours(1),
            UndoneBy = coordinator,
        };
        return
        [
            places,
            new PlaceImportSheet { ImportId = places.Id, Content = "[]"u8.ToArray() },
            new PlaceImportLine
            {
                ImportId = places.Id, Number = 1, Row = 2, Thing = PlaceThing.Tank, ThingId = Guid.NewGuid(), Name = "A009, Salón 3", Added = true,
                Fields = """[{"Key":"litres"}]""", Stayed = "It stays: it is in use by now.",
            },
            import,
            new ImportedSheet { ImportId = import.Id, Content = [0xEF, 0xBB, 0xBF, 0, 0xFF] },
            new CalendarFeed
            {
                Id = Guid.NewGuid(), ProgrammeId = p.Programme.Id, SchoolId = p.Schools[0].Id, TankId = p.Tanks[0].Id, SecretHash = new string('f', 64),
                IssuedAt = At, IssuedBy = coordinator, RevokedAt = At.AddDays(3),
            },
            new SetPointPlan
            {
                Id = Guid.NewGuid(), TankId = p.Tanks[0].Id, MadeAt = At, MadeBy = coordinator, Goal = SetPointGoal.SwimUpBy,
                GoalDay = new DateOnly(2027, 4, 2), Steps = """[{"on":"2027-02-04","c":9.4}]""", EndedAt = At.AddDays(2), EndedBy = coordinator,
            },
            new TankPhoto
            {
                Id = Guid.NewGuid(), TankId = p.Tanks[0].Id, Shows = PhotoOf.Kit, ReceivedAt = At, SentBy = coordinator, Note = "the new pump",
                Width = 1600, Height = 1200, Content = [0xFF, 0xD8, 0xFF, 0xD9], RemovedAt = At.AddDays(1), RemovedBy = coordinator,
            },
            new SeasonSeal
            {
                Id = Guid.NewGuid(), SeasonId = p.Season.Id, SealedAt = At, SealedBy = coordinator, Checksum = new string('a', 64), Account = [0x1F, 0x8B, 0, 0xFF],
                ReopenedAt = At.AddDays(1), ReopenedBy = coordinator, ReopenedBecause = "a release was missing",
            },
            new ReportColumns { ProgrammeId = p.Programme.Id, Text = "Eggs: eggs_received", ChangedAt = At, ChangedBy = coordinator },
            new OutgoingLetter
            {
                Id = Guid.NewGuid(), Key = "digest 2027-02-03", ProgrammeId = p.Programme.Id, PersonId = coordinator, To = "c@example.test",
                Subject = "3 tanks need you", Text = "First “Cedar Bend” …", WrittenAt = At, NotBefore = At.AddHours(1), State = LetterState.Sent,
                Attempts = 2, HeldUntil = At.AddMinutes(1), SentAt = At.AddMinutes(2), Trouble = "no answer within 10 s",
            },
            new Change
            {
                ProgrammeId = p.Programme.Id, At = At, By = coordinator, What = "Membership", Which = coordinator.ToString(), Name = "Teacher", About = coordinator,
                Kind = ChangeKind.Changed, Fields = ChangedField.Write([new ChangedField("Role", "Teacher", "Coordinator"), new ChangedField("Email", null, null, Withheld: true)]),
            },
            new Change { ProgrammeId = p.Programme.Id, At = At, What = "Tank", Which = "", Name = "", Kind = ChangeKind.Added, Fields = "[]" },
            new NewsSeen { PersonId = coordinator, ProgrammeId = p.Programme.Id, At = At },
            new OpenSession { Id = Guid.NewGuid(), PersonId = coordinator, Stamp = "3f2a", BeganAt = At, LastUsedAt = At.AddHours(1), Browser = "Firefox", System = "Windows" },
            new Draft { PersonId = coordinator, Key = "note", Text = "She will look at", At = At },
            sweep,
            new SweepReply
            {
                Id = Guid.NewGuid(), SweepId = sweep.Id, SchoolId = p.Schools[0].Id, PersonId = coordinator, SecretHash = "cd34", AskedAt = At,
                AnsweredAt = At.AddHours(1), Answer = SweepAnswer.PowerOff, Note = "battery air is on",
            },
            .. SampleKit.Of(p),
            new RehearsalMorning
            {
                Id = Guid.NewGuid(), ProgrammeId = p.Programme.Id, Seed = 7, StartedBy = coordinator, WorkedBy = coordinator, StartedAt = At,
                Called = ["R03", "R11"], FinishedAt = At.AddMinutes(20),
            },
            new Flag
            {
                Id = Guid.NewGuid(), ProgrammeId = p.Programme.Id, TankId = null, CauseBy = SharedBy.Lot, CauseCode = "L1", Kind = FlagKind.SharedCause,
                Urgency = Urgency.ActNow, OpenedAt = At, UpdatedAt = At, StandsOn = At, Evidence = SampleEvidence.All[6],
                Hazard = Hazard.Around(At, 24, 0.3), RuleVersion = "2026.1", PromiseDue = At.AddHours(2),
            },
        ];
    }
}

using Tankside.Hatchery.Digests;
using Tankside.Hatchery.People;
using Tankside.Testing;

namespace Tankside.Storage.Tests;

/// <summary>Announcements with their readers, texts to begin them with, and an address that takes no mail.</summary>
internal static class SampleLetters
{
    public static IEnumerable<object> Of(TestProgramme p)
    {
        var (at, coordinator) = (SampleRows.At, p.People[Role.Coordinator].Id);
        var announcement = new Announcement
        {
            Id = Guid.NewGuid(),
            ProgrammeId = p.Programme.Id,
            Audience = Audience.TeachersOfArea,
            For = "teachers in the area north",
            SubjectEn = "Eggs",
            TextEn = "Hello {name}",
            SubjectEs = "Huevos",
            TextEs = "Hola {name}, ¿todo bien?",
            WrittenAt = at,
            WrittenBy = coordinator,
            GoesAt = at + Announcement.Grace,
            TakenBackAt = at.AddMinutes(2),
            TakenBackBy = coordinator,
        };
        return
        [
            announcement,
            new AnnouncementReader { AnnouncementId = announcement.Id, PersonId = coordinator },
            new AnnouncementReader { AnnouncementId = announcement.Id, PersonId = p.People[Role.Teacher].Id, Without = WhyNoLetter.Left },
            new OwnTemplate
            {
                Id = Guid.NewGuid(), ProgrammeId = p.Programme.Id, Shipped = "welcome", Name = "Welcome", SubjectEn = "Welcome", TextEn = "To begin with", SubjectEs = "Bienvenida",
                TextEs = "Para empezar", ChangedAt = at, ChangedBy = coordinator,
            },
            new RefusedAddress { Address = RefusedAddress.Key("gone@example.test"), Since = at, Code = "5.1.1" },
        ];
    }
}

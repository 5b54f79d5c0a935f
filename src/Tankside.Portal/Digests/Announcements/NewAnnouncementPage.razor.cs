using Microsoft.AspNetCore.Components;
using Tankside.Hatchery.Digests;
using Tankside.Portal.Accounts;
using Tankside.Portal.Flags;
using Tankside.Portal.People;

namespace Tankside.Portal.Digests.Announcements;

/// <summary>Writing an announcement: the form, what it would say to whom, and the button that sends it.</summary>
public sealed partial class NewAnnouncementPage(LookAtAnnouncement looking, WriteAnnouncement writing, Audiences audiences, Templates templates, ProgrammePeople people)
{
    private static readonly (Audience Audience, string Words)[] AudienceWords =
    [
        (Audience.Teachers, "All teachers"),
        (Audience.TeachersOfSchools, "Teachers of the schools chosen"),
        (Audience.TeachersOfArea, "Teachers of an area"),
        (Audience.TeachersOfLot, "Teachers whose tanks hold a lot, or are to get it"),
        (Audience.TeachersOfStage, "Teachers whose tanks are in a stage"),
        (Audience.KitHands, "Kit hands"),
        (Audience.Everybody, "Everybody except agency contacts"),
    ];

    private CurrentUser user = null!;
    private AudienceChoices choices = null!;
    private string zone = "";
    private AnnouncementLook? look;
    private bool changed;

    [SupplyParameterFromQuery(Name = "template")]
    public string? Template { get; set; }

    private string Answer => look!.Chosen.WithLetter.Count == 0
        ? "Nobody would get this."
        : $"{CountWords.Count(look.Chosen.WithLetter.Count, "person gets", "people get")} this: {look.Chosen.Words}.";

    private string When => look!.At is { } at
        ? $"It goes out on {look.Clock.Local(at).ToString("dddd d MMMM, HH:mm", System.Globalization.CultureInfo.InvariantCulture)}. Nothing is sent yet."
        : "It goes out ten minutes after you press “Send”. Nothing is sent yet.";

    protected override async Task LoadAsync()
    {
        user = CurrentUser.From(Http.User)!;
        choices = await audiences.ChoicesAsync(user.ProgrammeId, Http.RequestAborted);
        zone = (await people.ProgrammeAsync(user, Http.RequestAborted)).TimeZone;
        if (!IsPost)
        {
            Input.Id = Guid.CreateVersion7();
            Input.Audience = nameof(Audience.Teachers);
            if (await templates.FindAsync(user, Template, Http.RequestAborted) is { Wording: var w })
            {
                (Input.SubjectEn, Input.TextEn, Input.SubjectEs, Input.TextEs) = (w.SubjectEn, w.TextEn, w.SubjectEs, w.TextEs);
            }
        }
    }

    private async Task TakeAsync()
    {
        look = await looking.HandleAsync(user, Input, Refuse, Http.RequestAborted);
        if (look is null || Input.Do != AnnouncementForm.Send)
        {
            return;
        }

        changed = Input.Seen != look.Mark;
        if (changed || look.Chosen.WithLetter.Count == 0)
        {
            return;
        }

        if (Input.Id == Guid.Empty || !await writing.HandleAsync(user, Input.Id, look, Http.RequestAborted))
        {
            Refuse("", "Nothing was sent: this form has lost its number. Copy your text, open a new form and send it there.");
            return;
        }

        Leave($"/announcements/{Input.Id}#notice", new Notice(true, "Kept. Until the first letter goes out you can take it back on this page."));
    }
}

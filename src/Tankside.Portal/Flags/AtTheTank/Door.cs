using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Accounts;

namespace Tankside.Portal.Flags.AtTheTank;

/// <summary>The way a reading comes in: its address, and what is kept about who brought it.</summary>
/// <param name="ConfirmedBy">What is kept when a doubtful value is answered here.</param>
/// <param name="Token">Antiforgery token for a signed-in person; a class needs none.</param>
public sealed record Door(
    string Address, ReadingSource Source, Guid? EnteredBy, string ConfirmedBy, string? Token, string? TokenField, string? BackTo)
{
    public bool IsAdult => EnteredBy is not null;

    public static Door OfClass(string code) => new($"/t/{code}", ReadingSource.Class, null, "class", null, null, null);

    /// <summary>What a coordinator or lead enters is what somebody at the tank told them.</summary>
    public static Door OfAdult(string tankCode, CurrentUser user, string token, string field) => new(
        $"/tanks/{tankCode}/reading",
        user.Is(Role.Coordinator, Role.ProgrammeLead) ? ReadingSource.PhoneCall : ReadingSource.Person,
        user.PersonId,
        user.PersonId.ToString(),
        token,
        field,
        $"/tanks/{tankCode}");
}

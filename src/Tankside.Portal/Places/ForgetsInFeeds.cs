using Microsoft.EntityFrameworkCore;
using Tankside.Portal.People;
using Tankside.Storage;

namespace Tankside.Portal.Places;

/// <summary>Calendar addresses that a person made show what that person may see; they end with the person.</summary>
internal sealed class ForgetsInFeeds : IForgetsPerson
{
    public async Task ForgetAsync(HatcheryDb db, Forgotten person, CancellationToken cancel)
    {
        foreach (var feed in await db.CalendarFeeds.Where(f => f.IssuedBy == person.PersonId && f.RevokedAt == null).ToListAsync(cancel))
        {
            feed.RevokedAt = person.At;
        }
    }
}

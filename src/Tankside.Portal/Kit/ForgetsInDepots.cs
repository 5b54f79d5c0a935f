using Microsoft.EntityFrameworkCore;
using Tankside.Portal.People;
using Tankside.Storage;

namespace Tankside.Portal.Kit;

/// <summary>A depot that the person had the key of has nobody named, and no number.</summary>
internal sealed class ForgetsInDepots : IForgetsPerson
{
    public async Task ForgetAsync(HatcheryDb db, Forgotten person, CancellationToken cancel)
    {
        foreach (var depot in await db.KitDepots.Where(d => d.HolderId == person.PersonId).ToListAsync(cancel))
        {
            (depot.HolderId, depot.Phone) = (null, null);
        }
    }
}

using Microsoft.EntityFrameworkCore;
using Tankside.Portal.People;
using Tankside.Storage;

namespace Tankside.Portal.Releases.Permits;

/// <summary>The leads answer for the reports of a permit whose person is gone. The holder on the agency's paper stays: that is the agency's word.</summary>
internal sealed class ForgetsInPermits : IForgetsPerson
{
    public async Task ForgetAsync(HatcheryDb db, Forgotten person, CancellationToken cancel)
    {
        foreach (var permit in await db.Permits.Where(p => p.ResponsibleId == person.PersonId).ToListAsync(cancel))
        {
            permit.ResponsibleId = null;
        }
    }
}

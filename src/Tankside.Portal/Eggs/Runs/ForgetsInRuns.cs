using Microsoft.EntityFrameworkCore;
using Tankside.Portal.People;
using Tankside.Storage;

namespace Tankside.Portal.Eggs.Runs;

/// <summary>Who drove which eggs is kept, without name and number.</summary>
internal sealed class ForgetsInRuns : IForgetsPerson
{
    public async Task ForgetAsync(HatcheryDb db, Forgotten person, CancellationToken cancel)
    {
        foreach (var driver in await db.RunDrivers.Where(d => d.PersonId == person.PersonId).ToListAsync(cancel))
        {
            (driver.Name, driver.Phone) = (person.CalledNow, null);
        }
    }
}

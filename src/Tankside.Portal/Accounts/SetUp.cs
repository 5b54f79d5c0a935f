using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Accounts;

/// <summary>How an empty installation gets its first programme lead: by a link that only whoever reads the program's output has.</summary>
public static class SetUp
{
    /// <summary>Prints the link, the same one for all its 24 hours. Called under the migration lock, so that portals that start together print one link.</summary>
    public static async Task PrintLinkAsync(HatcheryDb db, Uri publicUrl, DateTime now, TextWriter output)
    {
        var link = await db.SetUpLinks.Where(l => l.UsedAt == null && l.ExpiresAt > now).OrderByDescending(l => l.ExpiresAt).FirstOrDefaultAsync();
        if (link is null)
        {
            link = new SetUpLink
            {
                Id = Guid.CreateVersion7(),
                Secret = Secrets.New(),
                ExpiresAt = Instants.ToMillisecond(now + SetUpLink.Lifetime),
            };
            db.Add(link);
            await db.SaveChangesAsync();
        }

        await output.WriteLineAsync($"set-up link: {new Uri(publicUrl, $"set-up/{link.Secret}")}");
    }
}

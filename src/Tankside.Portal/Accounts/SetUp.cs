using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Accounts;

/// <summary>How a programme gets its first lead: by a link that only whoever reads the program's output has.</summary>
public static class SetUp
{
    /// <summary>Prints the link, the same one for all its 24 hours. Called under the migration lock, so that portals that start together print one link.</summary>
    /// <param name="forAnother">True for a further programme beside those there are.</param>
    public static async Task PrintLinkAsync(HatcheryDb db, Uri publicUrl, DateTime now, TextWriter output, bool forAnother = false)
    {
        var link = await db.SetUpLinks.Where(l => l.UsedAt == null && l.ExpiresAt > now && l.ForAnother == forAnother).OrderByDescending(l => l.ExpiresAt).FirstOrDefaultAsync();
        if (link is null)
        {
            link = new SetUpLink
            {
                Id = Guid.CreateVersion7(),
                Secret = Secrets.New(),
                ExpiresAt = Instants.ToMillisecond(now + SetUpLink.Lifetime),
                ForAnother = forAnother,
            };
            db.Add(link);
            await db.SaveChangesAsync();
        }

        await output.WriteLineAsync($"set-up link: {new Uri(publicUrl, $"set-up/{link.Secret}")}");
    }
}

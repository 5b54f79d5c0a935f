using Microsoft.EntityFrameworkCore;
using Tankside.Storage;

namespace Tankside.Portal.Accounts;

/// <summary>
/// Saves that somebody else's save may cross: each try loads and decides anew, so that the second of two sees what the first has done. A
/// form sent twice finds itself done.
/// </summary>
internal static class InTurn
{
    private const int Tries = 6;

    /// <summary>What to tell; null when the form was refused and <paramref name="refuse"/> has said why.</summary>
    public static async Task<Notice?> SaveAsync(Func<Task<Notice?>> attempt, Action<string, string> refuse)
    {
        for (var tried = 1; ; tried++)
        {
            try
            {
                return await attempt();
            }
            catch (DbUpdateException e) when (e is DbUpdateConcurrencyException || e.IsUniqueViolation())
            {
                if (tried == Tries)
                {
                    refuse("", "Somebody else is saving the same at this moment. Nothing was saved; please send it once more.");
                    return null;
                }
            }
        }
    }
}

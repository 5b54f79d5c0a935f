using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Storage;

namespace Tankside.Portal.Accounts.Mail;

/// <summary>Keeps which addresses take no mail.</summary>
public static class RefusedAddresses
{
    /// <summary>Marks the letter's address when it was refused for good, and clears it when the letter was taken. The caller saves.</summary>
    public static async Task NoteAsync(HatcheryDb db, OutgoingLetter letter, string? code, DateTime now)
    {
        if (letter.State == LetterState.Bounced)
        {
            await MarkAsync(db, letter.To, code ?? "5.0.0", now);
        }
        else if (letter.State == LetterState.Sent)
        {
            await ClearAsync(db, letter.To);
        }
    }

    /// <summary>The first refusal is when it began; a later one changes nothing.</summary>
    public static async Task MarkAsync(HatcheryDb db, string address, string code, DateTime since)
    {
        var key = RefusedAddress.Key(address);
        if (await db.RefusedAddresses.FindAsync(key) is null)
        {
            db.RefusedAddresses.Add(new RefusedAddress { Address = key, Since = since, Code = code });
        }
    }

    public static async Task ClearAsync(HatcheryDb db, string address)
    {
        var key = RefusedAddress.Key(address);
        if (await db.RefusedAddresses.FindAsync(key) is { } mark)
        {
            db.RefusedAddresses.Remove(mark);
        }
    }

    /// <summary>The marks of those of the addresses that have one, by <see cref="RefusedAddress.Key"/>.</summary>
    public static async Task<IReadOnlyDictionary<string, RefusedAddress>> OfAsync(HatcheryDb db, IEnumerable<string?> addresses, CancellationToken cancel)
    {
        var keys = addresses.OfType<string>().Select(RefusedAddress.Key).Distinct().ToList();
        return await db.RefusedAddresses.AsNoTracking().Where(a => keys.Contains(a.Address)).ToDictionaryAsync(a => a.Address, cancel);
    }
}

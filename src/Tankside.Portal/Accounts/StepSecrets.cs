using System.Security.Cryptography;
using Microsoft.AspNetCore.DataProtection;

namespace Tankside.Portal.Accounts;

/// <summary>The secrets of second steps as they lie in the database: encrypted, each for its own person, so that none can be put in another's place.</summary>
public sealed class StepSecrets(IDataProtectionProvider protection)
{
    private const string Mark = "p1 ", Signs = "ABCDEFGHIJKLMNOPQRSTUVWXYZ234567";

    private readonly IDataProtector protector = protection.CreateProtector("Tankside.SecondStep");

    public static bool IsProtected(string kept) => kept.StartsWith(Mark, StringComparison.Ordinal);

    public string Protect(Guid person, string secret) => Mark + Of(person).Protect(secret);

    /// <summary>
    /// One that cannot be read, because its key is gone, becomes one that no code fits. As if there were none would not do: to the framework an
    /// account without a secret has no second step, and the password alone would open it.
    /// </summary>
    public string Read(Guid person, string kept)
    {
        try
        {
            return Of(person).Unprotect(kept[Mark.Length..]);
        }
        catch (CryptographicException)
        {
            return RandomNumberGenerator.GetString(Signs, 32);
        }
    }

    private IDataProtector Of(Guid person) => protector.CreateProtector(person.ToString("N"));
}

using Microsoft.AspNetCore.Identity;
using Tankside.Portal.Shell;
using Tankside.Storage.People;

namespace Tankside.Portal.Accounts;

/// <summary>
/// Refuses what somebody who knows the person or the portal would try first: the name, the mail address, the words of the place and the words
/// chosen most often, and rows of signs. Whoever adds enough of their own to them may have them.
/// </summary>
/// <param name="services">Asked for the words only when something is refused: it is made before anybody knows who reads, and in which language.</param>
public sealed class GuessablePasswords(IServiceProvider services) : IPasswordValidator<Person>
{
    /// <summary>Signs that have to be left beside all that (no source).</summary>
    private const int LeastOwnSigns = 6;

    private const int ShortestPart = 4;

    private static readonly char[] Between = [' ', '@', '.', '-', '_', '+'];

    /// <summary>Words of the place, and those that people choose most often.</summary>
    public static IReadOnlyList<string> Words { get; } =
    [
        "tankside", "hatchery", "salmon", "trout", "alevin", "fingerling", "coordinator", "teacher", "maestra", "maestro", "classroom", "school", "escuela",
        "password", "passphrase", "contraseña", "contrasena", "letmein", "welcome", "iloveyou", "qwertyuiop", "qwerty", "asdfghjkl", "zxcvbnm", "admin", "change me", "changeme",
    ];

    public Task<IdentityResult> ValidateAsync(UserManager<Person> manager, Person user, string? password) => Task.FromResult(
        OwnSigns(password ?? "", [.. Words, .. PartsOf(user.Name), .. PartsOf(user.Email)]) >= LeastOwnSigns
            ? IdentityResult.Success
            : Refused(services.GetRequiredService<Say>()));

    /// <summary>How many signs are left without the known words, where a sign that repeats the one before or follows it in the row counts no more.</summary>
    public static int OwnSigns(string password, IEnumerable<string> known)
    {
        var left = known.OrderByDescending(word => word.Length)
            .Aggregate(password.ToLowerInvariant(), (text, word) => text.Replace(word, "", StringComparison.Ordinal));
        return left.Where((sign, i) => i == 0 || Math.Abs(sign - left[i - 1]) > 1).Count();
    }

    private static IdentityResult Refused(Say say) => IdentityResult.Failed(new IdentityError
    {
        Code = "PasswordGuessable",
        Description = say["This is easy to guess: little more than your name, your address, a common word or a row of signs. A few words that only you would put together do better."],
    });

    private static IEnumerable<string> PartsOf(string? text) =>
        (text ?? "").ToLowerInvariant().Split(Between, StringSplitOptions.RemoveEmptyEntries).Where(part => part.Length >= ShortestPart);
}

using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Identity;

namespace Tankside.Portal.Accounts;

/// <summary>A password being chosen, typed twice because nobody can see it.</summary>
public class NewPassword
{
    public const int Shortest = 12, Longest = 200;

    public const string Hint = "At least 12 characters. A few words in a row are easy to keep.";

    [Required(ErrorMessage = "Choose a password.")]
    [StringLength(Longest, MinimumLength = Shortest, ErrorMessage = "This is too short or too long: 12 to 200 characters, please.")]
    public string? Password { get; set; }

    [Compare(nameof(Password), ErrorMessage = "The two passwords differ. Please type both again.")]
    public string? Again { get; set; }

    /// <summary>Puts what the account store has against a new account or password beside the field it is about.</summary>
    public static void Tell(IdentityResult result, Action<string, string> refuse)
    {
        foreach (var error in result.Errors)
        {
            refuse(error.Code.StartsWith("Password", StringComparison.Ordinal) ? nameof(Password) : "Email", error.Description);
        }
    }
}

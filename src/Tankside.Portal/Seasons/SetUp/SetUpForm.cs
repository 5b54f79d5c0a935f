using System.ComponentModel.DataAnnotations;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;

namespace Tankside.Portal.Seasons.SetUp;

/// <summary>What the set-up page asks.</summary>
public sealed class SetUpForm : NewPassword
{
    [Required(ErrorMessage = "Type the programme's name."), StringLength(120, ErrorMessage = "At most 120 characters, please.")]
    public string? Programme { get; set; }

    [Required(ErrorMessage = "Choose the programme's time zone.")]
    public string? TimeZone { get; set; }

    public TemperatureUnit Unit { get; set; } = TemperatureUnit.F;

    [Required(ErrorMessage = "Type a name for the season."), StringLength(40, ErrorMessage = "At most 40 characters, please.")]
    public string? Season { get; set; }

    [Required(ErrorMessage = "Type your name."), StringLength(80, ErrorMessage = "At most 80 characters, please.")]
    public string? Name { get; set; }

    [Required(ErrorMessage = "Type your email address."), StringLength(200, ErrorMessage = "At most 200 characters, please.")]
    [EmailAddress(ErrorMessage = "This does not look like an email address. We expected something like name@programme.org.")]
    public string? Email { get; set; }
}

using System.ComponentModel.DataAnnotations;
using Tankside.Hatchery.People;

namespace Tankside.Portal.People;

/// <summary>What is asked about a member: role and, for a teacher, school.</summary>
public class RoleForm
{
    public Role Role { get; set; }

    /// <summary>The school's id as the list sends it, empty for none: an empty choice is no value of a nullable id.</summary>
    public string? School { get; set; }

    public RoleAtSchool Wanted => new(Role, Guid.TryParse(School, out var id) ? id : null);
}

/// <summary>What is asked about somebody to invite.</summary>
public sealed class InviteForm : RoleForm
{
    [Required(ErrorMessage = "Type an email address."), StringLength(200, ErrorMessage = "At most 200 characters, please.")]
    [EmailAddress(ErrorMessage = "This does not look like an email address. We expected something like name@school.org.")]
    public string? Email { get; set; }
}

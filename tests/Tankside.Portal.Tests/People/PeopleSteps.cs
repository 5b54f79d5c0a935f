using Tankside.Hatchery.People;

namespace Tankside.Portal.Tests.People;

/// <summary>What a lead and an invited person do on their pages.</summary>
public static class PeopleSteps
{
    public const string Password = "swim-up comes in spring";

    /// <summary>Invites somebody and gives the page that answers.</summary>
    public static async Task<HttpResponseMessage> InviteAsync(this HttpClient lead, string email, Role role, Guid? school = null)
    {
        var sent = await lead.PostFormAsync("/people", Invitation(email, role, school), "invite");
        return sent.Headers.Location is { } next ? await lead.GetAsync(next) : sent;
    }

    public static Dictionary<string, string> Invitation(string email, Role role, Guid? school) => new()
    {
        ["Input.Email"] = email,
        ["Input.Role"] = role.ToString(),
        ["Input.School"] = school?.ToString() ?? "",
    };

    public static Task<HttpResponseMessage> AcceptAsync(this HttpClient invited, string link, string name = "Ines Vale", string password = Password) =>
        invited.PostFormAsync(link, Acceptance(name, password), "accept");

    public static Dictionary<string, string> Acceptance(string name = "Ines Vale", string password = Password) => new()
    {
        ["Input.Name"] = name,
        ["Input.Password"] = password,
        ["Input.Again"] = password,
    };

    /// <summary>Changes a member's role and gives the page that answers.</summary>
    public static async Task<HttpResponseMessage> ChangeRoleAsync(this HttpClient lead, Guid membership, Role role, Guid? school = null)
    {
        var fields = new Dictionary<string, string> { ["Input.Role"] = role.ToString(), ["Input.School"] = school?.ToString() ?? "" };
        var sent = await lead.PostFormAsync($"/people/{membership}", fields, "role");
        return sent.Headers.Location is { } next ? await lead.GetAsync(next) : sent;
    }
}

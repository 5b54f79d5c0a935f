using System.Security.Claims;
using Tankside.Storage.People;

namespace Tankside.Portal.Accounts;

/// <summary>The person whose request this is; for work that nobody asked for by a request, whoever the work says it does it for.</summary>
public sealed class WhoActs(IHttpContextAccessor requests) : IWhoActs
{
    private readonly AsyncLocal<Guid?> named = new();

    public Guid? PersonId => named.Value
        ?? (Guid.TryParse(requests.HttpContext?.User.FindFirstValue(ClaimTypes.NameIdentifier), out var person) ? person : null);

    /// <summary>What follows in this call is done for that person: they are not signed in yet, or their request is over.</summary>
    public void Is(Guid person) => named.Value = person;
}

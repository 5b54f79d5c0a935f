using System.Security.Claims;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Options;
using Tankside.Hatchery.People;
using Tankside.Portal.Shell;
using Tankside.Storage;
using Tankside.Storage.People;

namespace Tankside.Portal.Accounts;

/// <summary>Who is asking: a person in a programme. Every query is narrowed by it; what is not yours is not found.</summary>
/// <param name="SchoolId">Set for a teacher: only that school's tanks exist for them.</param>
public sealed record CurrentUser(Guid PersonId, Guid ProgrammeId, Role Role, Guid? SchoolId)
{
    /// <summary>The name of the programme in hand, in the claims of somebody who is in several: the bar shows it.</summary>
    public const string OneOfSeveral = "one-of-several";

    private const string ProgrammeClaim = "programme", SchoolClaim = "school";

    /// <summary>Null for nobody, for an account that belongs to no programme any more, and for one that still owes its second step.</summary>
    public static CurrentUser? From(ClaimsPrincipal principal) =>
        Guid.TryParse(principal.FindFirstValue(ClaimTypes.NameIdentifier), out var person)
        && Guid.TryParse(principal.FindFirstValue(ProgrammeClaim), out var programme)
        && Enum.TryParse<Role>(principal.FindFirstValue(ClaimTypes.Role), out var role)
            ? new CurrentUser(person, programme, role, Guid.TryParse(principal.FindFirstValue(SchoolClaim), out var school) ? school : null)
            : null;

    /// <summary>The programme that a session is about, also while the second step is still owed there.</summary>
    public static Guid? ProgrammeOf(ClaimsPrincipal principal) =>
        Guid.TryParse(principal.FindFirstValue(ProgrammeClaim), out var programme) ? programme : null;

    public bool Is(params ReadOnlySpan<Role> roles) => roles.Contains(Role);

    /// <summary>Adds a person's membership of one programme to their claims: of the one in hand, else of the one chosen last, else of the first.</summary>
    public sealed class ClaimsFactory(
        UserManager<Person> people, IOptions<IdentityOptions> options, IDbContextFactory<HatcheryDb> databases, ProgrammeInHand inHand)
        : UserClaimsPrincipalFactory<Person>(people, options)
    {
        protected override async Task<ClaimsIdentity> GenerateClaimsAsync(Person user)
        {
            var identity = await base.GenerateClaimsAsync(user);
            identity.AddClaim(new Claim(SpokenLanguage.Claim, user.Language));
            await using var db = await databases.CreateDbContextAsync();
            var places = await (
                from m in db.Memberships.AsNoTracking()
                join p in db.Programmes.AsNoTracking() on m.ProgrammeId equals p.Id
                where m.PersonId == user.Id
                orderby m.Id
                select new { Membership = m, Programme = p }).ToListAsync();
            if (places.Count == 0)
            {
                return identity;
            }

            var wanted = inHand.Of(user.Id) ?? user.WorksIn;
            var place = places.Find(p => p.Programme.Id == wanted) ?? places[0];
            var (membership, programme) = (place.Membership, place.Programme);
            identity.AddClaim(new Claim(ProgrammeClaim, programme.Id.ToString()));
            if (places.Count > 1)
            {
                identity.AddClaim(new Claim(OneOfSeveral, programme.Name));
            }

            if (await OwedStep.IsByAsync(db, user, membership.Role, programme))
            {
                // Without a role every door stays shut but those to the second step itself.
                identity.AddClaim(new Claim(OwedStep.Claim, ""));
                return identity;
            }

            identity.AddClaim(new Claim(ClaimTypes.Role, membership.Role.ToString()));
            if (membership.SchoolId is { } school)
            {
                identity.AddClaim(new Claim(SchoolClaim, school.ToString()));
            }

            return identity;
        }
    }
}

/// <summary>Who may go where. Pages and addresses name one of these.</summary>
public static class Policies
{
    /// <summary>Anyone who belongs to a programme.</summary>
    public const string Member = nameof(Member);

    /// <summary>Every member, and whoever has to set up a second step before they are let in as one: the pages of one's own ways in.</summary>
    public const string OwnSignIn = nameof(OwnSignIn);

    /// <summary>Those who work the round: coordinator and lead.</summary>
    public const string Round = nameof(Round);

    /// <summary>Those who look after tanks: teacher (own school), coordinator, kit hand, lead.</summary>
    public const string Tanks = nameof(Tanks);

    /// <summary>Those who enter releases and ledger lines: teacher (own school), coordinator, lead.</summary>
    public const string Ledger = nameof(Ledger);

    /// <summary>Those who hand out labels: teacher (own school), coordinator, lead.</summary>
    public const string Labels = nameof(Labels);

    /// <summary>Those who keep photos of a tank: teacher (own school), coordinator, lead.</summary>
    public const string Photos = nameof(Photos);

    /// <summary>Those who keep the register of the kit: coordinator, kit hand, lead.</summary>
    public const string Kit = nameof(Kit);

    /// <summary>Those who see the season's account: coordinator, lead, agency contact.</summary>
    public const string Totals = nameof(Totals);

    /// <summary>Those who see release days: teacher (own school), coordinator, lead, agency contact.</summary>
    public const string Bookings = nameof(Bookings);

    /// <summary>The programme lead alone.</summary>
    public const string Lead = nameof(Lead);

    /// <summary>An API key of any role.</summary>
    public const string AnyKey = nameof(AnyKey);

    /// <summary>A coordinator's API key.</summary>
    public const string CoordinatorKey = nameof(CoordinatorKey);

    public static IReadOnlyDictionary<string, Role[]> Roles { get; } = new Dictionary<string, Role[]>
    {
        [Member] = Enum.GetValues<Role>(),
        [Round] = [Role.Coordinator, Role.ProgrammeLead],
        [Tanks] = [Role.Teacher, Role.Coordinator, Role.KitHand, Role.ProgrammeLead],
        [Ledger] = [Role.Teacher, Role.Coordinator, Role.ProgrammeLead],
        [Labels] = [Role.Teacher, Role.Coordinator, Role.ProgrammeLead],
        [Photos] = [Role.Teacher, Role.Coordinator, Role.ProgrammeLead],
        [Kit] = [Role.Coordinator, Role.KitHand, Role.ProgrammeLead],
        [Totals] = [Role.Coordinator, Role.ProgrammeLead, Role.AgencyContact],
        [Bookings] = [Role.Teacher, Role.Coordinator, Role.ProgrammeLead, Role.AgencyContact],
        [Lead] = [Role.ProgrammeLead],
    };
}

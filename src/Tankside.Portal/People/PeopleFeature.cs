using Tankside.Portal.Accounts.Mail;

namespace Tankside.Portal.People;

/// <summary>Who is in a programme: invitations, roles, keys of other programs.</summary>
public static class PeopleFeature
{
    public static void AddPeople(this IServiceCollection services)
    {
        services.AddScoped<ProgrammePeople>();
        services.AddScoped<Drafts>();
        services.AddScoped<InvitePerson>();
        services.AddSingleton<InvitationsByMail>();
        services.AddSingleton<IFreshWords, InvitationWords>();
        services.AddScoped<WithdrawInvitation>();
        services.AddScoped<AcceptInvitation>();
        services.AddScoped<ChangeRole>();
        services.AddScoped<RemoveMember>();
        services.AddScoped<HandPasswordLink>();
        services.AddScoped<IssueKey>();
        services.AddScoped<RevokeKey>();
        services.AddScoped<EditMe>();
    }
}

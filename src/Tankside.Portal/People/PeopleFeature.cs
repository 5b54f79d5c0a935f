using System.Text.Json;
using Microsoft.AspNetCore.Http.HttpResults;
using Tankside.Portal.Accounts;
using Tankside.Portal.Accounts.Mail;

namespace Tankside.Portal.People;

/// <summary>Who is in a programme: invitations, roles, keys of other programs.</summary>
public static class PeopleFeature
{
    private static readonly JsonSerializerOptions Readable = new(JsonSerializerDefaults.Web) { WriteIndented = true };

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
        services.AddScoped<HelpIn>();
        services.AddScoped<ChooseProgramme>();
        services.AddScoped<SetCheck>();
        services.AddScoped<IssueKey>();
        services.AddScoped<RevokeKey>();
        services.AddScoped<EditMe>();
        services.AddScoped<MyData>();
        services.AddScoped<ErasePerson>();
    }

    public static void MapMyData(this IEndpointRouteBuilder routes) =>
        routes.MapGet("/me/data.json", DownloadAsync).RequireAuthorization(Policies.Member).ExcludeFromDescription();

    private static async Task<FileContentHttpResult> DownloadAsync(HttpContext context, MyData data, CancellationToken cancel)
    {
        context.Response.Headers.CacheControl = "private, no-store";
        var mine = await data.LoadAsync(CurrentUser.From(context.User)!, cancel);
        return TypedResults.Bytes(JsonSerializer.SerializeToUtf8Bytes(mine, Readable), "application/json", "my-data.json");
    }
}

using System.Security.Claims;
using System.Text.Encodings.Web;
using Microsoft.AspNetCore.Authentication;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Options;
using Tankside.Hatchery.People;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Accounts;

/// <summary>Signs in a program by its key: <c>Authorization: Bearer KEY</c>.</summary>
public sealed class KeyAuthentication(
    IOptionsMonitor<AuthenticationSchemeOptions> options,
    ILoggerFactory logger,
    UrlEncoder encoder,
    KeysTogether keys,
    IDbContextFactory<HatcheryDb> databases,
    TimeProvider time) : AuthenticationHandler<AuthenticationSchemeOptions>(options, logger, encoder)
{
    public const string SchemeName = "Key";

    protected override async Task<AuthenticateResult> HandleAuthenticateAsync()
    {
        if (BearerKey.Of(Request) is not { } sent)
        {
            return AuthenticateResult.NoResult();
        }

        if (await keys.FindAsync(Secrets.Hash(sent)) is not { Key: { RevokedAt: null } key, TimeZone: var zone })
        {
            return AuthenticateResult.Fail("unknown key");
        }

        await NoteUseAsync(key);
        Context.Items[typeof(ApiKey)] = key;
        Context.Items[typeof(ProgrammeClock)] = zone;
        var identity = new ClaimsIdentity([new Claim("key-role", key.Role.ToString())], SchemeName);
        return AuthenticateResult.Success(new AuthenticationTicket(new ClaimsPrincipal(identity), SchemeName));
    }

    /// <summary>At most once an hour a key, whoever else notes it in the same moment. It changes nothing that somebody set, so no record tells it.</summary>
    private async Task NoteUseAsync(ApiKey key)
    {
        var now = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        var before = now - ApiKey.UseIsNotedEvery;
        if (key.LastUsedAt is null || key.LastUsedAt <= before)
        {
            await using var db = await databases.CreateDbContextAsync(Context.RequestAborted);
            await db.ApiKeys.Where(k => k.Id == key.Id && (k.LastUsedAt == null || k.LastUsedAt <= before))
                .ExecuteUpdateAsync(set => set.SetProperty(k => k.LastUsedAt, now), Context.RequestAborted);
        }
    }

    protected override async Task HandleChallengeAsync(AuthenticationProperties properties)
    {
        Response.StatusCode = StatusCodes.Status401Unauthorized;
        Response.Headers.WWWAuthenticate = "Bearer";
        await WriteProblemAsync("This address needs a key: send it as \"Authorization: Bearer KEY\". A lost key is replaced on the page \"People\" or with the command \"key new\".");
    }

    protected override async Task HandleForbiddenAsync(AuthenticationProperties properties)
    {
        Response.StatusCode = StatusCodes.Status403Forbidden;
        await WriteProblemAsync("This key is for readings only; this address needs a coordinator key.");
    }

    private Task WriteProblemAsync(string detail) =>
        Context.RequestServices.GetRequiredService<IProblemDetailsService>().WriteAsync(new ProblemDetailsContext
        {
            HttpContext = Context,
            ProblemDetails = { Status = Response.StatusCode, Detail = detail },
        }).AsTask();
}

public static class KeyOfRequest
{
    /// <summary>The key that signed this request in; only on addresses whose policy asks for a key.</summary>
    public static ApiKey ApiKey(this HttpContext context) => (ApiKey)context.Items[typeof(ApiKey)]!;

    /// <summary>The time zone of its programme.</summary>
    public static string ZoneOfKey(this HttpContext context) => (string)context.Items[typeof(ProgrammeClock)]!;
}

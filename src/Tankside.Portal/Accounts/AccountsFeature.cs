using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Components.Authorization;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore.Diagnostics;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts.Mail;
using Tankside.Portal.Shell;
using Tankside.Storage;
using Tankside.Storage.People;

namespace Tankside.Portal.Accounts;

/// <summary>Identity, cookies, keys, policies, and the letters that let people in.</summary>
public static class AccountsFeature
{
    /// <summary>Of PBKDF2 with SHA-512, as the OWASP cheat sheet on password storage asks; an older hash is made anew at the next sign-in.</summary>
    private const int PasswordRounds = 210_000;

    public static void AddAccounts(this IServiceCollection services)
    {
        services.AddSingleton<WhoActs>();
        services.AddSingleton<IWhoActs>(s => s.GetRequiredService<WhoActs>());
        services.AddSingleton<ChangeRecorder>();
        services.AddSingleton<IInterceptor>(s => s.GetRequiredService<ChangeRecorder>());
        services.AddDataProtection().SetApplicationName("tankside").PersistKeysToDbContext<HatcheryDb>();
        services.AddIdentityCore<Person>(options =>
            {
                // Length is what makes a password hard to guess; rules about signs only make it hard to remember.
                options.Password.RequiredLength = 12;
                options.Password.RequireDigit = options.Password.RequireLowercase = false;
                options.Password.RequireUppercase = options.Password.RequireNonAlphanumeric = false;
                options.User.RequireUniqueEmail = true;
                // The user name is the mail address, and those may hold more signs than the usual ones.
                options.User.AllowedUserNameCharacters = "";
                options.Lockout.MaxFailedAccessAttempts = 8;
                options.Lockout.DefaultLockoutTimeSpan = TimeSpan.FromMinutes(10);
            })
            .AddUserStore<AccountStore>()
            .AddClaimsPrincipalFactory<CurrentUser.ClaimsFactory>()
            .AddSignInManager<HouseSignIn>()
            .AddPasswordValidator<GuessablePasswords>()
            .AddDefaultTokenProviders()
            .AddTokenProvider<OnceOnlyCodes>(TokenOptions.DefaultAuthenticatorProvider);
        services.Configure<PasswordHasherOptions>(o => o.IterationCount = PasswordRounds);
        services.AddSingleton<ProgrammeInHand>();
        services.AddScoped<ISecurityStampValidator, SessionCheck>();
        services.AddSingleton<IAntiforgeryAdditionalDataProvider, FormsOfOneProgramme>();
        services.AddSingleton<StepSecrets>();
        services.AddSingleton<OpenSessions>();
        services.AddSingleton<KeysTogether>();
        services.AddScoped<LivingSession>();
        services.AddScoped<TwoSteps>();
        services.AddScoped<Passkeys>();
        services.AddAuthentication(IdentityConstants.ApplicationScheme)
            .AddScheme<Microsoft.AspNetCore.Authentication.AuthenticationSchemeOptions, KeyAuthentication>(KeyAuthentication.SchemeName, null)
            .AddIdentityCookies(cookies => cookies.ApplicationCookie!.Configure(ConfigureCookie));
        services.ConfigureAll<CookieAuthenticationOptions>(o => o.CookieManager = new OwnHostCookies());
        services.AddCascadingAuthenticationState();
        services.AddScoped<AuthenticationStateProvider, StampRevalidation>();
        services.AddAuthorization(AddPolicies);
        services.Configure<SecurityStampValidatorOptions>(o => o.ValidationInterval = Sessions.CheckEvery);
        services.Configure<DataProtectionTokenProviderOptions>(o => o.TokenLifespan = PasswordLinks.Lifetime);
        services.Configure<AntiforgeryOptions>(ConfigureForms);
        services.AddSingleton<CarriedNotice>();
        services.AddScoped<PasswordLinks>();
        services.AddMail();
    }

    private static void AddMail(this IServiceCollection services)
    {
        services.AddSingleton<IMailer>(s => s.GetRequiredService<TanksideOptions>().Mail.Host is null
            ? ActivatorUtilities.CreateInstance<FileMailer>(s)
            : ActivatorUtilities.CreateInstance<SmtpMailer>(s));
        services.AddSingleton<Outbox>();
        services.AddSingleton<LeaveLinks>();
        services.AddSingleton<SendLetters>();
        services.AddScoped<TakeReports>();
        services.AddHostedService<OutboxWorker>();
        services.AddHealthChecks().AddCheck<LettersCheck>("letters", tags: ["ready"]);
        services.AddSingleton<PasswordRequests>();
        services.AddHostedService(s => s.GetRequiredService<PasswordRequests>());
    }

    private static void ConfigureForms(AntiforgeryOptions forms)
    {
        forms.Cookie.Name = "tankside-form";
        forms.Cookie.SecurePolicy = CookieSecurePolicy.SameAsRequest;
    }

    private static void ConfigureCookie(CookieAuthenticationOptions cookie)
    {
        cookie.Cookie.Name = "tankside";
        cookie.Cookie.HttpOnly = true;
        cookie.Cookie.SameSite = SameSiteMode.Lax;
        cookie.Cookie.SecurePolicy = CookieSecurePolicy.SameAsRequest;
        cookie.ExpireTimeSpan = TimeSpan.FromDays(14);
        cookie.LoginPath = "/sign-in";
        cookie.LogoutPath = "/sign-out";
        cookie.AccessDeniedPath = "/not-yours";
        cookie.ReturnUrlParameter = "to";
        var denied = cookie.Events.OnRedirectToAccessDenied;
        cookie.Events.OnRedirectToAccessDenied = context =>
        {
            if (OwedStep.IsBy(context.HttpContext.User))
            {
                context.RedirectUri = OwedStep.Page;
                if (HttpMethods.IsPost(context.Request.Method))
                {
                    var services = context.HttpContext.RequestServices;
                    services.GetRequiredService<CarriedNotice>().Carry(context.HttpContext, new Notice(false, services.GetRequiredService<Say>()["What you have just sent was not saved: your second step is asked first. Set it up, then enter it again."]));
                }
            }

            return denied(context);
        };
    }

    private static void AddPolicies(AuthorizationOptions options)
    {
        foreach (var (name, roles) in Policies.Roles)
        {
            options.AddPolicy(name, p => p.AddAuthenticationSchemes(IdentityConstants.ApplicationScheme)
                .RequireAuthenticatedUser().RequireRole(roles.Select(r => r.ToString())));
        }

        options.AddPolicy(Policies.OwnSignIn, p => p.AddAuthenticationSchemes(IdentityConstants.ApplicationScheme)
            .RequireAssertion(asked => OwedStep.IsBy(asked.User) || CurrentUser.From(asked.User) is not null));
        options.AddPolicy(Policies.AnyKey, p => p.AddAuthenticationSchemes(KeyAuthentication.SchemeName).RequireAuthenticatedUser());
        options.AddPolicy(Policies.CoordinatorKey, p => p.AddAuthenticationSchemes(KeyAuthentication.SchemeName)
            .RequireClaim("key-role", ApiKeyRole.Coordinator.ToString()));

        // A page that names no policy is for members: forgetting one closes the door instead of opening it.
        options.FallbackPolicy = options.GetPolicy(Policies.Member);
    }
}

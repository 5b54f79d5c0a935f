using Microsoft.AspNetCore.Identity;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;
using Tankside.Storage;
using Tankside.Storage.People;

namespace Tankside.Portal.Commands;

/// <summary>Switches the second step off for somebody whom no lead can help: the only lead, or one who is in several programmes.</summary>
public static class SecondStepCommand
{
    public static Command? Parse(string[] words) =>
        words is ["off", .. var rest] && Words.Parse(rest, "--email") is { } options && options["--email"] is { } email
            ? new Command((services, cancel) => SwitchOffAsync(services, email, cancel))
            : null;

    private static async Task<int> SwitchOffAsync(IServiceProvider services, string email, CancellationToken cancel)
    {
        await FirstSteps.MigrateAsync(services, cancel);
        if (await services.GetRequiredService<UserManager<Person>>().FindByEmailAsync(email) is not { } person
            || !await OwedStep.HasOneAsync(services.GetRequiredService<HatcheryDb>(), person))
        {
            await Console.Error.WriteLineAsync($"There is no account '{email}' with a second step. Nothing was changed.");
            return ExitCodes.Failed;
        }

        await services.GetRequiredService<TwoSteps>().SwitchOffAsync(person, passkeysToo: true);
        Console.WriteLine($"The second step of {email} is off. Passkeys are removed too. They sign in with their password, and are signed out wherever they were signed in.");
        return ExitCodes.Good;
    }
}

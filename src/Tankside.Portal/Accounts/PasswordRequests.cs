using System.Threading.Channels;
using Microsoft.AspNetCore.Identity;
using Tankside.Portal.Accounts.Mail;
using Tankside.Storage.People;

namespace Tankside.Portal.Accounts;

/// <summary>
/// Answers "I forgot my password" after the page has answered. The page does the same for every address and looks none up, so neither its
/// words nor its time tell which addresses have accounts.
/// </summary>
public sealed class PasswordRequests(IServiceScopeFactory scopes, IMailer mailer, TimeProvider time, ILogger<PasswordRequests> log)
    : BackgroundService
{
    /// <summary>Nobody's mailbox is filled by somebody else's pressing of the button.</summary>
    private static readonly TimeSpan BetweenLetters = TimeSpan.FromMinutes(1), Day = TimeSpan.FromDays(1);

    private const int LettersADay = 6;

    private readonly Channel<string> asked = Channel.CreateBounded<string>(200);

    /// <summary>Letters within the last day, by person.</summary>
    private readonly Dictionary<Guid, List<DateTimeOffset>> lately = [];

    /// <summary>False when so many wait that this one was not taken.</summary>
    public bool TryAsk(string email) => asked.Writer.TryWrite(email);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        await foreach (var email in asked.Reader.ReadAllAsync(stoppingToken))
        {
            try
            {
                await AnswerAsync(email, stoppingToken);
            }
            catch (Exception e) when (e is System.Data.Common.DbException or Microsoft.EntityFrameworkCore.DbUpdateException or InvalidOperationException or TimeoutException)
            {
                log.LogError(e, "A request for a new password could not be answered");
            }
        }
    }

    private async Task AnswerAsync(string email, CancellationToken cancel)
    {
        await using var scope = scopes.CreateAsyncScope();
        var person = await scope.ServiceProvider.GetRequiredService<UserManager<Person>>().FindByEmailAsync(email);
        if (person is null || !IsDue(person.Id) || !await scope.ServiceProvider.GetRequiredService<HouseSignIn>().CanSignInAsync(person))
        {
            return;
        }

        var link = await scope.ServiceProvider.GetRequiredService<PasswordLinks>().NewAsync(person);
        var outcome = await mailer.SendAsync(AccountLetters.NewPassword(person.Email!, person.Name, link), cancel);
        log.LogInformation("Link for a new password for {Person}: {Outcome}", person.Id, outcome);
    }

    private bool IsDue(Guid person)
    {
        var now = time.GetUtcNow();
        foreach (var (id, times) in lately)
        {
            times.RemoveAll(at => now - at >= Day);
            if (times.Count == 0)
            {
                lately.Remove(id);
            }
        }

        if (!lately.TryGetValue(person, out var written))
        {
            lately[person] = written = [];
        }

        if (written.Count >= LettersADay || (written.Count > 0 && now - written[^1] < BetweenLetters))
        {
            return false;
        }

        written.Add(now);
        return true;
    }
}

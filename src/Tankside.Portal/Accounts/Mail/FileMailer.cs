using Tankside.Portal.Shell;

namespace Tankside.Portal.Accounts.Mail;

/// <summary>Keeps letters as files, for an installation without a mail server. They hold links that open doors, so the folder is the owner's.</summary>
public sealed class FileMailer(TanksideOptions options, TimeProvider time, ILogger<FileMailer> log) : IMailer
{
    private readonly string folder = Path.Combine(options.DataFolder, "mail");

    public async Task<MailOutcome> SendAsync(Letter letter, CancellationToken cancel)
    {
        try
        {
            OwnFolder.Make(folder);
            var now = time.GetUtcNow();
            var file = Path.Combine(folder, $"{now.UtcDateTime:yyyyMMdd-HHmmss}-{letter.Id ?? Guid.CreateVersion7():N}.eml");
            using var message = Envelope.Of(letter, options.Mail.From, now);
            await message.WriteToAsync(file, cancel);
            return MailOutcome.KeptAsFile;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or MimeKit.ParseException)
        {
            log.LogError("A mail could not be kept in {Folder}: {Trouble}", folder, e.GetType().Name);
            return MailOutcome.Failed;
        }
    }

    public Task<MailOutcome> ProbeAsync(CancellationToken cancel) => Task.FromResult(MailOutcome.KeptAsFile);
}

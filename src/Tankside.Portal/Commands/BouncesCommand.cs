using MimeKit;
using Tankside.Portal.Accounts.Mail;
using Tankside.Portal.Shell;

namespace Tankside.Portal.Commands;

/// <summary>Reads the reports of letters that could not be delivered, from a file or from standard input, and says a line for each recipient.</summary>
public static class BouncesCommand
{
    private const string StandardInput = "-";

    public static Command? Parse(string[] words) => words is [var file] && (file == StandardInput || !file.StartsWith('-'))
        ? new Command((services, cancel) => ReadAsync(services, file, cancel))
        : null;

    private static async Task<int> ReadAsync(IServiceProvider services, string file, CancellationToken cancel)
    {
        await FirstSteps.MigrateAsync(services, cancel);
        if (await MessagesAsync(file, cancel) is not { } messages)
        {
            await Console.Error.WriteLineAsync($"{Name(file)} is not a mail message (RFC 5322). Nothing was changed.");
            return ExitCodes.Failed;
        }

        var reports = 0;
        await using var scope = services.CreateAsyncScope();
        foreach (var message in messages)
        {
            using (message)
            {
                foreach (var (report, taken) in await scope.ServiceProvider.GetRequiredService<TakeReports>().HandleAsync(message, cancel))
                {
                    reports++;
                    Console.WriteLine($"{report.Address ?? "unknown address"}: {report.Status}, {Words(taken)}");
                }
            }
        }

        if (reports == 0)
        {
            await Console.Error.WriteLineAsync($"{Name(file)} holds no delivery report (RFC 3464: multipart/report with message/delivery-status). Nothing was changed.");
            return ExitCodes.Failed;
        }

        return ExitCodes.Good;
    }

    /// <summary>One message, or the many of a mailbox file; null when it is neither.</summary>
    private static async Task<IReadOnlyList<MimeMessage>?> MessagesAsync(string file, CancellationToken cancel)
    {
        using var content = new MemoryStream();
        await using (var source = file == StandardInput ? Console.OpenStandardInput() : File.OpenRead(file))
        {
            await source.CopyToAsync(content, cancel);
        }

        content.Position = 0;
        var many = content.GetBuffer().AsSpan(0, (int)content.Length).StartsWith("From "u8);
        var parser = new MimeParser(content, many ? MimeFormat.Mbox : MimeFormat.Entity);
        var messages = new List<MimeMessage>();
        try
        {
            do
            {
                messages.Add(await parser.ParseMessageAsync(cancel));
            }
            while (many && !parser.IsEndOfStream);
        }
        catch (FormatException)
        {
            messages.ForEach(m => m.Dispose());
            return null;
        }

        return messages;
    }

    private static string Name(string file) => file == StandardInput ? "Standard input" : $"'{file}'";

    private static string Words(ReportTaken taken) => taken switch
    {
        ReportTaken.RefusedForGood => "refused for good: the letter and the address are marked",
        ReportTaken.NotDelivered => "not delivered: the letter is marked, the address is not to blame",
        ReportTaken.Delayed => "the servers go on trying, nothing was changed",
        ReportTaken.Delivered => "delivered, a mark on the address is cleared",
        ReportTaken.NotOurs => "no letter of ours, nothing was changed",
    };
}

using Tankside.Portal.Accounts.Mail;
using Tankside.Portal.Digests.Announcements;
using Tankside.Portal.Digests.HandOver;
using Tankside.Portal.Digests.Installation;
using Tankside.Portal.Digests.Keeping;
using Tankside.Portal.Flags;

namespace Tankside.Portal.Digests;

/// <summary>Mails about the round: each morning, and at once for what cannot wait.</summary>
public static class DigestsFeature
{
    public static void AddDigests(this IServiceCollection services)
    {
        services.AddSingleton<LetterContents>();
        services.AddSingleton<MorningDigest>();
        services.AddSingleton<IFreshWords, DigestWords>();
        services.AddSingleton<ISavedWithFlags, UrgentLetters>();
        services.AddSingleton<IFreshWords, UrgentWords>();
        services.AddSingleton<ReportReminders>();
        services.AddSingleton<IFreshWords, ReminderWords>();
        services.AddScoped<SentLetters>();
        services.AddAnnouncements();
        services.AddScoped<HandOverDesk>();
        services.AddScoped<SixWeeks>();
        services.AddSingleton<InstallationFacts>();
        services.AddSingleton<LetGo>();
        services.AddHostedService<DigestWorker>();
        services.AddHostedService<LetGoWorker>();
    }
}

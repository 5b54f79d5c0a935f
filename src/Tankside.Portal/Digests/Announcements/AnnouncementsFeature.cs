using Tankside.Portal.Accounts.Mail;

namespace Tankside.Portal.Digests.Announcements;

/// <summary>Announcements: writing, looking, sending, taking back, and the texts to begin with.</summary>
public static class AnnouncementsFeature
{
    public static void AddAnnouncements(this IServiceCollection services)
    {
        services.AddScoped<Audiences>();
        services.AddScoped<FactsOfReaders>();
        services.AddScoped<LookAtAnnouncement>();
        services.AddScoped<WriteAnnouncement>();
        services.AddScoped<TakeBackAnnouncement>();
        services.AddScoped<SentAnnouncements>();
        services.AddScoped<Templates>();
        services.AddSingleton<IFreshWords, AnnouncementWords>();
    }
}

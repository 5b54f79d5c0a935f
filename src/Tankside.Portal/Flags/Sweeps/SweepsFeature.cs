using Tankside.Portal.Accounts.Mail;

namespace Tankside.Portal.Flags.Sweeps;

/// <summary>Marked areas: marking, asking, answering, the board.</summary>
public static class SweepsFeature
{
    public static void AddSweeps(this IServiceCollection services)
    {
        services.AddScoped<AreaCovers>();
        services.AddScoped<MarkArea>();
        services.AddScoped<EndSweep>();
        services.AddScoped<MessageTeachers>();
        services.AddSingleton<IFreshWords, SweepLetterWords>();
        services.AddSingleton(new MustArrive(SweepLetterWords.Kind, "your school has a tank in the area that is marked", "su escuela tiene un tanque en la zona marcada"));
        services.AddScoped<ReplyByLink>();
        services.AddScoped<TakeReply>();
        services.AddScoped<TellAnswer>();
        services.AddScoped<SweepBoard>();
        services.AddScoped<OpenSweeps>();
    }
}

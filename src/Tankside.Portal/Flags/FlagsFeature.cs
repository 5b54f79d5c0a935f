using Tankside.Portal.Accounts.Mail;
using Tankside.Portal.Eggs.Runs;
using Tankside.Portal.Flags.AtTheTank;
using Tankside.Portal.Flags.Calls;
using Tankside.Portal.Flags.Cards;
using Tankside.Portal.Flags.Changes;
using Tankside.Portal.Flags.Coming;
using Tankside.Portal.Flags.FirstPages;
using Tankside.Portal.Flags.HatchCalendar;
using Tankside.Portal.Flags.Leaving;
using Tankside.Portal.Flags.News;
using Tankside.Portal.Flags.Numbers;
using Tankside.Portal.Flags.Readiness;
using Tankside.Portal.Flags.Rehearsals;
using Tankside.Portal.Flags.Research;
using Tankside.Portal.Flags.Search;
using Tankside.Portal.Flags.Spares;
using Tankside.Portal.Flags.Steering;
using Tankside.Portal.Flags.Sweeps;
using Tankside.Portal.Flags.Texts;
using Tankside.Portal.Flags.Years;

namespace Tankside.Portal.Flags;

/// <summary>Flags and the morning round.</summary>
public static class FlagsFeature
{
    public static void AddFlags(this IServiceCollection services)
    {
        services.AddScoped<Finder>();
        services.AddSingleton<RoundFeed>();
        services.AddHealthChecks().AddCheck<SweepCheck>("sweep", tags: ["ready"]);
        services.AddSingleton<JudgeHealth>();
        services.AddSingleton<SharedJudge>();
        services.AddSingleton<RunningState>();
        services.AddSingleton<Judge>();
        services.AddSingleton<WrongCodes>();
        services.AddSingleton<SentTogether>();
        services.AddScoped<TankByCode>();
        services.AddScoped<TodaysReading>();
        services.AddScoped<HelpAtTheTank>();
        services.AddScoped<WeekAtOnce>();
        services.AddScoped<Round>();
        services.AddScoped<SeasonYears>();
        services.AddScoped<ResearchFiles>();
        services.AddScoped<ActOnFlag>();
        services.AddScoped<ReserveSpare>();
        services.AddScoped<RecordCall>();
        services.AddScoped<SendFirstAid>();
        services.AddSingleton(new MustArrive(FirstAidDesk.KeyStart, "you teach at the school of this tank", "usted es docente en la escuela de este tanque"));
        services.AddScoped<SettledFlags>();
        services.AddScoped<OurTank>();
        services.AddScoped<TankRegister>();
        services.AddScoped<Weekend>();
        services.AddScoped<Homes>();
        services.AddScoped<ComingUp>();
        services.AddScoped<NewsBook>();
        services.AddScoped<CalendarTanks>();
        services.AddScoped<Feeds>();
        services.AddScoped<PlanTank>();
        services.AddScoped<PlanTanks>();
        services.AddScoped<CardTanks>();
        services.AddScoped<ReadyTanks>();
        services.AddScoped<IEggGate>(s => s.GetRequiredService<ReadyTanks>());
        services.AddNumbers();
        services.AddTexts();
        services.AddChanges();
        services.AddRehearsals();
        services.AddSweeps();
        services.AddHostedService<JudgeWorker>();
        services.AddHostedService<RoundRefresh>();
    }
}

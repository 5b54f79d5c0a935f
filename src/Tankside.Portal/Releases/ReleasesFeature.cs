using Tankside.Portal.Accounts.Mail;
using Tankside.Portal.Kit;
using Tankside.Portal.People;
using Tankside.Portal.Places;
using Tankside.Portal.Readings;
using Tankside.Portal.Releases.Agency;
using Tankside.Portal.Releases.Arrivals;
using Tankside.Portal.Releases.Bookings;
using Tankside.Portal.Releases.Due;
using Tankside.Portal.Releases.Ledger;
using Tankside.Portal.Releases.Lots;
using Tankside.Portal.Releases.NextSeason;
using Tankside.Portal.Releases.OnTheDay;
using Tankside.Portal.Releases.OwnColumns;
using Tankside.Portal.Releases.Permits;
using Tankside.Portal.Releases.Sealing;
using Tankside.Portal.Releases.StepByStep;
using Tankside.Portal.Releases.ToTheStream;

namespace Tankside.Portal.Releases;

/// <summary>The fish ledger, releases and the season's account.</summary>
public static class ReleasesFeature
{
    public static void AddReleases(this IServiceCollection services)
    {
        services.AddSingleton<ISavedWithReading, LossLines>();
        services.AddSingleton<IFishAtRisk, FishForKit>();
        services.AddSingleton<IForgetsPerson, ForgetsInFeeds>();
        services.AddSingleton<IForgetsPerson, ForgetsInPermits>();
        services.AddScoped<TotalsOfSeason>();
        services.AddScoped<TankLedger>();
        services.AddScoped<EnterLine>();
        services.AddScoped<ReceiveEggs>();
        services.AddScoped<ReceivePack>();
        services.AddSingleton<IFreshWords, ArrivalWords>();
        services.AddScoped<MoveFish>();
        services.AddScoped<CorrectLine>();
        services.AddScoped<CloseTank>();
        services.AddScoped<SeasonReleases>();
        services.AddScoped<RecordRelease>();
        services.AddScoped<WithdrawRelease>();
        services.AddScoped<MarkReported>();
        services.AddScoped<KeepSite>();
        services.AddScoped<KeepPermit>();
        services.AddScoped<PermitPapers>();
        services.AddScoped<SealSeason>();
        services.AddScoped<SeasonSeals>();
        services.AddScoped<AgencyAccount>();
        services.AddScoped<OwnReport>();
        services.AddPlaceEditing();
        services.AddScoped<SeasonOverview>();
        services.AddScoped<MakeSeason>();
        services.AddScoped<ChangeSeason>();
        services.AddScoped<SeasonChanges>();
        services.AddScoped<FirstSteps>();
        services.AddScoped<SeasonLots>();
        services.AddScoped<LotCustody>();
        services.AddScoped<KeepLot>();
        services.AddScoped<Allotments>();
        services.AddScoped<OrderAtHand>();
        services.AddScoped<KeepTable>();
        services.AddScoped<TemperTanks>();
        services.AddScoped<BookingBoard>();
        services.AddScoped<BookingHistory>();
        services.AddScoped<AskBooking>();
        services.AddScoped<SettleBooking>();
        services.AddScoped<ChangeBooking>();
        services.AddScoped<DaySheets>();
        services.AddScoped<WorkDay>();
        services.AddScoped<NilReports>();
        services.AddScoped<RemindDays>();
    }

    public static void MapPermitPapers(this IEndpointRouteBuilder routes) =>
        routes.MapGet("/releases/permits/{permitId:guid}/papers/{id:guid}", PermitPapers.GetAsync).RequireAuthorization(Accounts.Policies.Round).ExcludeFromDescription();
}

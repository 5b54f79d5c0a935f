using Tankside.Portal.Accounts;
using Tankside.Portal.Bench;
using Tankside.Portal.Commands;
using Tankside.Portal.Commands.Backups;
using Tankside.Portal.Digests;
using Tankside.Portal.Digests.HandOver;
using Tankside.Portal.Digests.Leaving;
using Tankside.Portal.Eggs.Runs;
using Tankside.Portal.Flags;
using Tankside.Portal.Flags.AtTheTank;
using Tankside.Portal.Flags.Cards;
using Tankside.Portal.Flags.Changes;
using Tankside.Portal.Flags.HatchCalendar;
using Tankside.Portal.Flags.Research;
using Tankside.Portal.Flags.Sweeps;
using Tankside.Portal.Flags.Years;
using Tankside.Portal.Kit;
using Tankside.Portal.People;
using Tankside.Portal.Places;
using Tankside.Portal.Places.Labels;
using Tankside.Portal.Places.Sheets;
using Tankside.Portal.Readings;
using Tankside.Portal.Readings.Photos;
using Tankside.Portal.Readings.Sheets;
using Tankside.Portal.Readings.WallSheets;
using Tankside.Portal.Releases;
using Tankside.Portal.Releases.Files;
using Tankside.Portal.Releases.OwnColumns;
using Tankside.Portal.Seasons.SetUp;
using Tankside.Portal.Shell;
using Tankside.Portal.Shell.Telemetry;
using Tankside.Storage;

if (CommandLine.WithoutPortal(args) is { } done)
{
    return done;
}

var builder = Start.Builder(args, out var command);
if (Start.TryReadOptions(builder) is not { } options)
{
    return ExitCodes.Failed;
}

builder.AddLogging(onStandardError: command is not null);
builder.Services.AddSingleton(options);
builder.Services.AddSingleton(TimeProvider.System);
builder.AddTelemetry(options);
builder.Services.AddHatcheryDb(options.Database, options.ReadFrom);
builder.Services.AddAccounts();
builder.Services.AddShell(options);
builder.Services.AddPeople();
builder.Services.AddSetUp();
builder.Services.AddSingleton<IPlaceNames, PlaceNames>();
builder.Services.AddKit();
builder.Services.AddRuns();
builder.Services.AddReadings();
builder.Services.AddReleases();
builder.Services.AddFlags();
builder.Services.AddDigests();
BackupCheck.Add(builder.Services);

var app = builder.Build();
if (command is not null)
{
    return await command.RunAsync(app.Services);
}

app.UseForwardedHeaders();
app.UseRequestLog();
app.UseExceptionHandler(TroubleAnswers.Page);
app.UseStatusCodePagesWithReExecute("/not-found", createScopeForStatusCodePages: true);
app.UseFetchedTroublePages();
app.UseApiProblems();
app.UsePageSecurity();
app.UseOwnOrigin();
app.UseAwayAnswers();
app.UseClassCompression();
app.UseAuthentication();
app.UseRateLimiter();
app.UseChosenLanguage();
app.UseAuthorization();
app.UseOutputCache();
app.UseFormTokens();

app.MapStaticAssets().AllowAnonymous();
app.MapHealth();
app.MapAccounts();
// The one answer that is the same for everybody who asks by the same name of ours, and long to put together. All others say how things stand now.
app.MapOpenApi().AllowAnonymous().CacheOutput(policy => policy.Expire(TimeSpan.FromHours(1)));
app.MapLabels();
app.MapExampleSheets();
app.MapKit();
app.MapRuns();
app.MapWallSheets();
app.MapCards();
app.MapPhotos();
app.MapReadingPages();
app.MapSweepReplies();
app.MapCalendarFeeds();
app.MapLoggerApi();
app.MapImportedRows();
app.MapTotals();
app.MapOwnReport();
app.MapBench();
app.MapNoSuchAddress();
app.MapTanksApi();
app.MapFlagsApi();
app.MapHandOver();
app.MapLeaving();
app.MapResearch();
app.MapYears();
app.MapPermitPapers();
app.MapMyData();
app.MapChanges();
app.MapRazorComponents<App>().AddInteractiveServerRenderMode(o => o.ContentSecurityFrameAncestorsPolicy = null);

await app.PrepareDatabaseAsync();
await app.RunAsync();
return ExitCodes.Good;

/// <summary>Named so that tests can host it.</summary>
public partial class Program;

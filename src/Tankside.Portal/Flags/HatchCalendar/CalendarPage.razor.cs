using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Authorization;
using Tankside.Hatchery.Flags;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;
using Tankside.Portal.Shell.Charts;

namespace Tankside.Portal.Flags.HatchCalendar;

/// <summary>Every tank against weekends, closures and snow days. What is shown stands in the address, so that a list can be sent on.</summary>
public sealed partial class CalendarPage(CalendarTanks calendar)
{
    private const string Bars = """<path d="M0 7h26" stroke="currentColor" stroke-width="3" stroke-opacity=".35"/><path d="M4 7h18" stroke="currentColor" stroke-width="9" stroke-opacity=".45"/>""";

    private CalendarNow? now;
    private IReadOnlyList<CalendarTank> tanks = [];
    private IReadOnlyList<CalendarGroup> groups = [];
    private Slice<(CalendarGroup Group, CalendarTank Tank)> slice = Slice.Of<(CalendarGroup, CalendarTank)>([], null);
    private List<string> schools = [];
    private List<string> lots = [];
    private IReadOnlyList<string> models = [];
    private CalendarOrder order;
    private DateAxis axis = null!;
    private DateTime local;
    private int breakDays, daysBefore;
    private double limit;

    [SupplyParameterFromQuery(Name = "by")]
    private string? By { get; set; }

    [SupplyParameterFromQuery(Name = "school")]
    private string? School { get; set; }

    [SupplyParameterFromQuery(Name = "lot")]
    private string? Lot { get; set; }

    [SupplyParameterFromQuery(Name = "page")]
    private string? Page { get; set; }

    [CascadingParameter]
    private Task<AuthenticationState> Signed { get; set; } = null!;

    protected override async Task OnInitializedAsync()
    {
        if (CurrentUser.From((await Signed).User) is not { } user)
        {
            return;
        }

        order = Enum.TryParse<CalendarOrder>(By, ignoreCase: true, out var named) && Enum.IsDefined(named) ? named : CalendarOrder.Week;
        var loaded = await calendar.LoadAsync(user, CancellationToken.None);
        now = loaded with { Time = loaded.Time.To(Say) };
        local = now.Clock.Local(now.At);
        schools = [.. now.Tanks.Select(t => t.Glance.Place.School.Name).Distinct().Order(StringComparer.Ordinal)];
        lots = [.. now.Tanks.Select(t => t.Lot.Code).Distinct().Order(StringComparer.Ordinal)];
        tanks = [.. now.Tanks.Where(t => (string.IsNullOrEmpty(School) || t.Glance.Place.School.Name == School) && (string.IsNullOrEmpty(Lot) || t.Lot.Code == Lot))];
        models = [.. tanks.SelectMany(t => new[] { t.Hatch, t.SwimUp }).OfType<StageOnCalendar>().Select(s => $"{s.Forecast.Model.Name}, {s.Forecast.Model.Source}").Distinct()];
        axis = CalendarGroups.Axis(now, tanks);
        slice = Slice.Of([.. CalendarGroups.Of(now, tanks, order).SelectMany(g => g.Tanks.Select(t => (g, t)))], Page);
        groups = [.. slice.Rows.GroupBy(r => r.Group, r => r.Tank).Select(g => g.Key with { Tanks = [.. g] })];
        var limits = now.Tanks.Count > 0 ? now.Tanks[0].Glance.Place.Limits : new LimitSet(new Dictionary<string, double>());
        (breakDays, daysBefore, limit) = ((int)limits[Limits.Season.BreakDays], (int)limits[Limits.Season.DaysBeforeBreak], limits[Limits.Season.BreakChance]);
    }

    private KeyItem[] Key =>
    [
        new(Say["hatch: likeliest day, 8 in 10, 19 in 20"], "in-river", Bars + """<circle cx="13" cy="7" r="5" fill="currentColor"/>"""),
        new(Say["swim-up and first food"], "in-river", Bars + """<path d="M5 7l8-6 8 6-8 6z" fill="currentColor"/>"""),
        new(Say["likely in a break, or too near one"], "in-orange", """<path d="M3 7h20" stroke="currentColor" stroke-width="9" stroke-opacity=".45"/><circle cx="13" cy="7" r="5" fill="currentColor"/>"""),
        KeyItem.Closed(Say["school closed"]),
        new(Say["today"], "in-soft", """<path d="M13 0v14" stroke="currentColor" stroke-width="2" stroke-dasharray="2 3"/>"""),
    ];

    private string Label(CalendarTank tank) => string.Join(
        "; ",
        new[] { (Say["hatch"], tank.Hatch), (Say["swim-up"], tank.SwimUp) }.Where(s => s.Item2 is not null).Select(s => $"{s.Item1} {CalendarWords.Dates(s.Item2!, now!.Time)}"));

    private RenderFragment Cell(StageOnCalendar? stage, string? why) => builder =>
    {
        if (stage is null)
        {
            builder.AddContent(0, why is null ? Say["no date"] : Say.Told(why));
            return;
        }

        builder.AddContent(1, CalendarWords.Dates(stage, now!.Time));
        if (CalendarWords.Trouble(stage, now.Time) is { } trouble)
        {
            builder.AddMarkupContent(2, "<br>");
            builder.OpenElement(3, "strong");
            builder.AddContent(5, trouble);
            builder.CloseElement();
        }
        else if (CalendarWords.Closed(stage, now.Time) is { } closed)
        {
            builder.AddMarkupContent(6, "<br>");
            builder.OpenElement(7, "small");
            builder.AddContent(8, closed);
            builder.CloseElement();
        }
    };
}

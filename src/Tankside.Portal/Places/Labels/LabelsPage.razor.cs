using System.Globalization;
using Microsoft.AspNetCore.Components;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.People;
using Tankside.Portal.Shell.Paper;

namespace Tankside.Portal.Places.Labels;

/// <summary>The code that was seen when a new one was asked for.</summary>
public sealed class CodeForm
{
    public Guid? Replaces { get; set; }
}

/// <summary>Every open tank with the code on its label.</summary>
public sealed partial class LabelsPage(SchoolLabels labels, ReplaceCode replace, TimeProvider time)
{
    private LabelBook book = null!;
    private PaperSize paper = null!;
    private DateOnly week;
    private string language = "en";
    private bool forTeacher;
    private int all;
    private int labelled;
    private IReadOnlyList<string> unused = [];

    [SupplyParameterFromQuery(Name = "paper")]
    public string? Paper { get; set; }

    [SupplyParameterFromQuery(Name = "week")]
    public string? Week { get; set; }

    [SupplyParameterFromQuery(Name = "lang")]
    public string? Lang { get; set; }

    /// <summary>The tank that just got a code: its label is to be printed next.</summary>
    [SupplyParameterFromQuery(Name = "made")]
    public string? Made { get; set; }

    private CurrentUser Asking => CurrentUser.From(Http.User)!;

    private string Answer => (all, labelled) switch
    {
        (0, _) => Say["There is nothing to label yet."],
        (1, 1) => Say["Your tank has its code."],
        var (tanks, with) when tanks == with => Say.Of("All {0} tanks have their codes.", tanks),
        var (tanks, with) => Say.Count(tanks, "{1} of {0} tank has no code yet.", "{1} of {0} tanks have no code yet.", tanks - with),
    };

    private string IsoWeek => week.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private string WallSheet => $"week={IsoWeek}&paper={paper.Name}&lang={language}";

    protected override async Task LoadAsync()
    {
        book = await labels.LoadAsync(Asking, Http.RequestAborted);
        (all, labelled) = (book.Tanks.Count(), book.Tanks.Count(t => t.Code is not null));
        unused = [.. book.Schools.Where(s => s.Tanks.Count == 0).Select(s => s.Name)];
        forTeacher = Asking.Is(Role.Teacher);
        paper = PaperSize.Named(Paper) ?? PrintChoice.Usual(book.Programme);
        language = Lang is "en" or "es" ? Lang : Say.Language;
        week = PrintChoice.Week(Week) ?? PrintChoice.NextWeek(ProgrammeClock.Of(book.Programme.TimeZone).Day(time.GetUtcNow().UtcDateTime));
    }

    private async Task IssueMissingAsync()
    {
        var issued = await replace.IssueMissingAsync(Asking, Http.RequestAborted);
        Leave("/labels#notice", new Notice(true, issued switch
        {
            0 => Say["No code was missing any more."],
            1 => Say["One code is made. Print its label and put it on the tank."],
            _ => Say.Of("{0} codes are made. Print their labels and put them on the tanks.", issued),
        }));
    }

    private string Since(LabelledTank tank) => (tank.Code, tank.Replaced) switch
    {
        (null, null) => "",
        (null, { } revoked) => Say.Of("the last one was revoked {0}", LocalTimes.Moment(book.Programme, revoked, Say)),
        ({ } code, { } revoked) when revoked == code.IssuedAt => Say.Of("replaced {0}; the one before is void", LocalTimes.Moment(book.Programme, revoked, Say)),
        ({ } code, _) => Say.Of("since {0}", LocalTimes.Day(book.Programme, code.IssuedAt, Say)),
    };
}

using System.Globalization;
using Microsoft.AspNetCore.Components;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.People;

namespace Tankside.Portal.Flags.Rehearsals;

public sealed class StartForm
{
    /// <summary>Who is to work it; asked of a lead only.</summary>
    public string? Person { get; set; }

    public string? Number { get; set; }
}

public sealed partial class RehearsalsPage(RehearsalBook book, ProgrammePeople people, TimeProvider clock) : SheetPage<StartForm>
{
    private IReadOnlyList<ListedRehearsal> rehearsals = [];
    private IReadOnlyList<Learner> learners = [];
    private TimeWords? time;

    [SupplyParameterFromForm(FormName = "remove")]
    public Guid? Removed { get; set; }

    private CurrentUser Asking => CurrentUser.From(Http.User)!;

    private bool IsLead => Asking.Role == Role.ProgrammeLead;

    private string Answer => (rehearsals.Count(r => r.Result is null), rehearsals.Count) switch
    {
        (_, 0) => "No morning has been practised yet.",
        (0, var all) => $"{CountWords.Count(all, "morning", "mornings")} practised.",
        (1, _) => "One rehearsal is not finished.",
        (var open, _) => $"{open} rehearsals are not finished.",
    };

    protected override async Task LoadAsync()
    {
        var programme = await people.ProgrammeAsync(Asking, Http.RequestAborted);
        time = new TimeWords(ProgrammeClock.Of(programme.TimeZone), clock.GetUtcNow().UtcDateTime);
        rehearsals = await book.ListAsync(Asking, Http.RequestAborted);
        learners = IsLead ? await book.LearnersAsync(Asking, Http.RequestAborted) : [];
    }

    private async Task StartAsync()
    {
        var seed = Seed();
        var worker = Worker();
        if (seed is not { } number || worker is not { } person)
        {
            return;
        }

        if (await book.StartAsync(Asking, person, number == 0 ? null : number, Http.RequestAborted) is not { } started)
        {
            Refuse(nameof(Input.Person), "Choose a coordinator or lead of this programme.");
            return;
        }

        var mine = person == Asking.PersonId;
        Leave(
            mine ? $"/rehearsal/{started.Id}" : "/rehearsal#notice",
            new Notice(true, mine ? "The morning begins." : $"Morning {started.Seed} is started. They find it under “Practise a morning” on their first page."));
    }

    /// <summary>0 for none asked; null when what was typed is no number of a morning.</summary>
    private int? Seed()
    {
        if (string.IsNullOrWhiteSpace(Input.Number))
        {
            return 0;
        }

        if (int.TryParse(Input.Number.Trim(), NumberStyles.None, CultureInfo.InvariantCulture, out var number) && number is >= Rehearsing.LeastSeed and <= Rehearsing.MostSeed)
        {
            return number;
        }

        Refuse(nameof(Input.Number), $"A morning has a whole number from {Rehearsing.LeastSeed} to {Rehearsing.MostSeed}, such as 4711; or leave it empty.");
        return null;
    }

    private Guid? Worker()
    {
        if (!IsLead)
        {
            return Asking.PersonId;
        }

        if (Guid.TryParse(Input.Person, out var person))
        {
            return person;
        }

        Refuse(nameof(Input.Person), "Choose who is to work it.");
        return null;
    }

    private async Task RemoveAsync() => Leave("/rehearsal#notice", await book.RemoveAsync(Asking, Removed ?? Guid.Empty, Http.RequestAborted));
}

using System.Globalization;
using Tankside.Hatchery.Seasons;
using Tankside.Portal.Accounts;

namespace Tankside.Portal.Releases.NextSeason;

public sealed class SeasonForm
{
    /// <summary>Made when the page is shown, so that the form sent twice is one season.</summary>
    public Guid Id { get; set; }

    /// <summary>The season as the person saw it.</summary>
    public int Version { get; set; }

    public string? Name { get; set; }

    public string? StartsOn { get; set; }

    public string? EndsOn { get; set; }

    /// <summary>New room codes for all tanks that take part.</summary>
    public bool NewCodes { get; set; }

    /// <summary>Whoever had the first season behind them now is not new any more.</summary>
    public bool NotNewAnyMore { get; set; }

    public static string Of(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}

/// <summary>What was typed of a season, read.</summary>
internal readonly record struct TypedSeason(string Name, DateOnly StartsOn, DateOnly EndsOn)
{
    /// <summary>Null when the form was refused; the fields have been told why.</summary>
    public static TypedSeason? Read(SeasonForm form, IReadOnlyList<Season> others, (DateOnly First, DateOnly Last)? entered, TypedFields typed)
    {
        var name = typed.Name(nameof(form.Name), form.Name, "Type a name for the season, such as 2027-28.");
        var (starts, ends) = (typed.Day(nameof(form.StartsOn), form.StartsOn), typed.Day(nameof(form.EndsOn), form.EndsOn));
        if (name.Length > 40 || name.Contains('/', StringComparison.Ordinal))
        {
            typed.Refuse(nameof(form.Name), "At most 40 characters, and no /: it names files.");
        }

        if (others.Any(o => string.Equals(o.Name, name, StringComparison.OrdinalIgnoreCase)))
        {
            typed.Refuse(nameof(form.Name), $"A season called {name} is there already.");
        }

        if (!typed.AllGood)
        {
            return null;
        }

        foreach (var why in SeasonRules.Check(starts, ends, others, entered))
        {
            var (field, says) = Word(why, starts, ends, others, entered);
            typed.Refuse(field, says);
        }

        return typed.AllGood ? new TypedSeason(name, starts, ends) : null;
    }

    private static (string Field, string Says) Word(SeasonRefusal why, DateOnly starts, DateOnly ends, IReadOnlyList<Season> others, (DateOnly First, DateOnly Last)? entered) => why switch
    {
        SeasonRefusal.EndsBeforeItStarts => (nameof(SeasonForm.EndsOn), "The season ends after it begins."),
        SeasonRefusal.TooLong => (nameof(SeasonForm.EndsOn), $"That is more than {SeasonRules.MostDays} days. Please look at the years."),
        SeasonRefusal.Overlaps => (nameof(SeasonForm.StartsOn), Crossed(others.First(o => o.StartsOn <= ends && starts <= o.EndsOn))),
        SeasonRefusal.LeavesLinesOutside => (nameof(SeasonForm.StartsOn), $"The ledger has lines from {SeasonAtHand.Day(entered!.Value.First)} to {SeasonAtHand.Day(entered.Value.Last)} in this season; it has to cover them."),
    };

    private static string Crossed(Season other) =>
        $"Season {other.Name} runs from {SeasonAtHand.Day(other.StartsOn)} to {SeasonAtHand.Day(other.EndsOn)}. Seasons do not overlap: begin this one after that, or change the other’s days first.";
}

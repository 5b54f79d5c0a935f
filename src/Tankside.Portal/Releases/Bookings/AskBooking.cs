using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Releases.Bookings;
using Tankside.Portal.Accounts;
using Tankside.Storage;

namespace Tankside.Portal.Releases.Bookings;

/// <summary>One choice as it is typed.</summary>
public sealed class ChoiceForm
{
    public string? Site { get; set; }

    public string? On { get; set; }

    public string? Part { get; set; }

    public bool IsEmpty => string.IsNullOrWhiteSpace(Site) && string.IsNullOrWhiteSpace(On);
}

/// <summary>What a school asks for.</summary>
public sealed class AskForm
{
    /// <summary>Made when the page is shown, so that the form sent twice is one booking.</summary>
    public Guid Id { get; set; }

    /// <summary>The booking that is changed or asked for again; null for a new one.</summary>
    public Guid? Of { get; set; }

    /// <summary>Chosen tanks.</summary>
    public Guid[]? Tanks { get; set; }

    public string? Visitors { get; set; }

    public string? Buses { get; set; }

    public string? OtherHelpers { get; set; }

    public string? Needs { get; set; }

    public ChoiceForm First { get; set; } = new();

    public ChoiceForm Second { get; set; } = new();

    public ChoiceForm Third { get; set; } = new();

    public IReadOnlyList<ChoiceForm> Choices => [First, Second, Third];

    /// <summary>Sets the fields of a form that is bound already.</summary>
    public void Fill(BookingSeen seen)
    {
        var booking = seen.Booking;
        (Of, Tanks, Needs) = (booking.Id, [.. booking.TankIds], booking.Needs);
        (Visitors, Buses, OtherHelpers) = (Number(booking.Visitors), Number(booking.Buses), Number(booking.OtherHelpers));
        foreach (var choice in seen.Choices)
        {
            var form = Choices[choice.Rank - 1];
            (form.Site, form.On, form.Part) = (choice.SiteId.ToString(), choice.On.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture), choice.Part.ToString());
        }

        static string Number(int count) => count.ToString(CultureInfo.InvariantCulture);
    }
}

/// <summary>Takes a school's wish: which tanks, how many come, and up to three choices of place, day and part of the day.</summary>
public sealed class AskBooking(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    public Task<Notice?> HandleAsync(CurrentUser user, AskForm form, Action<string, string> refuse, CancellationToken cancel) =>
        InTurn.SaveAsync(() => TryAsync(user, form, refuse, cancel), refuse);

    private sealed record Said(Guid School, IReadOnlyList<Guid> Tanks, int Visitors, int Buses, int OtherHelpers, string? Needs, IReadOnlyList<(int Rank, Slot Slot)> Choices);

    private async Task<Notice?> TryAsync(CurrentUser user, AskForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await db.ReleaseBookings.AnyAsync(b => b.Id == form.Id, cancel))
        {
            return new Notice(true, "This was asked for already; it stands in the list once.");
        }

        var season = await SeasonAtHand.LoadAsync(db, user.ProgrammeId, time, cancel);
        var typed = new TypedFields(refuse);
        var said = await ReadAsync(db, user, form, season, typed, cancel);
        if (season.Season is null)
        {
            typed.Refuse("", "There is no season yet to ask in.");
        }

        var booking = form.Of is { } of ? await BookingBoard.InReach(db, user).SingleOrDefaultAsync(b => b.Id == of, cancel) : null;
        if (form.Of is not null && booking is not { State: not BookingState.Settled })
        {
            typed.Refuse("", "This booking is settled or gone. Nothing was saved. To move it, ask the coordinator; to give it up, cancel it.");
        }

        if (!typed.AllGood)
        {
            return null;
        }

        var deed = booking switch { null => BookingDeed.Asked, { State: BookingState.Cancelled } => BookingDeed.AskedAgain, _ => BookingDeed.Changed };
        booking ??= Add(db, user, form, said, season);
        (booking.TankIds, booking.Visitors, booking.Buses, booking.OtherHelpers, booking.Needs) = ([.. said.Tanks], said.Visitors, said.Buses, said.OtherHelpers, said.Needs);
        booking.State = BookingState.Asked;
        var choices = await ChooseAsync(db, booking.Id, said, cancel);
        db.BookingActs.Add(BookingActs.New(booking.Id, user, deed, season.Now, choices));
        await db.SaveChangesAsync(cancel);
        return new Notice(true, "Asked for. The coordinator settles one of the choices; nothing is booked until then.");
    }

    private static ReleaseBooking Add(HatcheryDb db, CurrentUser user, AskForm form, Said said, SeasonAtHand season)
    {
        var booking = new ReleaseBooking { Id = form.Id, SeasonId = season.Season!.Id, SchoolId = said.School, AskedAt = season.Now, AskedBy = user.PersonId };
        db.ReleaseBookings.Add(booking);
        return booking;
    }

    /// <summary>Writes the choices down and tells them in words for the history.</summary>
    private static async Task<string> ChooseAsync(HatcheryDb db, Guid bookingId, Said said, CancellationToken cancel)
    {
        var old = await db.BookingChoices.Where(c => c.BookingId == bookingId).ToListAsync(cancel);
        db.RemoveRange(old.Where(o => said.Choices.All(c => c.Rank != o.Rank)));
        foreach (var (rank, slot) in said.Choices)
        {
            if (old.Find(o => o.Rank == rank) is { } kept)
            {
                (kept.SiteId, kept.On, kept.Part) = (slot.SiteId, slot.On, slot.Part);
            }
            else
            {
                db.BookingChoices.Add(new BookingChoice { BookingId = bookingId, Rank = rank, SiteId = slot.SiteId, On = slot.On, Part = slot.Part });
            }
        }

        var sites = said.Choices.Select(c => c.Slot.SiteId).ToList();
        var names = await db.ReleaseSites.Where(s => sites.Contains(s.Id)).ToDictionaryAsync(s => s.Id, s => s.Name, cancel);
        return string.Join("; ", said.Choices.Select(c => $"{c.Rank}. {names[c.Slot.SiteId]}, {BookingWords.When(c.Slot)}"));
    }

    private static async Task<Said> ReadAsync(HatcheryDb db, CurrentUser user, AskForm form, SeasonAtHand season, TypedFields typed, CancellationToken cancel)
    {
        Guid[] wanted = form.Tanks ?? [];
        var tanks = await (
            from tank in TanksInReach.Of(db, user)
            join room in db.Classrooms on tank.ClassroomId equals room.Id
            where wanted.Contains(tank.Id) && tank.ClosedAt == null
            orderby tank.Code
            select new { tank.Id, room.SchoolId }).ToListAsync(cancel);
        if (tanks.Count == 0 || tanks.Count != wanted.Distinct().Count())
        {
            typed.Refuse(nameof(form.Tanks), "Choose the tanks whose fish go; a closed tank has none.");
        }
        else if (tanks.Select(t => t.SchoolId).Distinct().Count() > 1)
        {
            typed.Refuse(nameof(form.Tanks), "Choose tanks of one school; another school asks for itself.");
        }

        var said = new Said(
            tanks.Select(t => t.SchoolId).FirstOrDefault(), [.. tanks.Select(t => t.Id)],
            Number(nameof(form.Visitors), form.Visitors, 1, "Type how many come, children and adults. No names."),
            Number(nameof(form.Buses), form.Buses, 0, "Type how many buses come; 0 for cars or on foot."),
            typed.OptionalCount(nameof(form.OtherHelpers), form.OtherHelpers) ?? 0,
            typed.Text(nameof(form.Needs), form.Needs), await ChoicesAsync(db, user, form, season, typed, cancel));
        if (said.OtherHelpers is < 0 or > 1000)
        {
            typed.Refuse(nameof(form.OtherHelpers), "Type a number of adults, 0 or more.");
        }

        return said;

        int Number(string field, string? text, int least, string whenEmpty)
        {
            var count = typed.Count(field, text, whenEmpty);
            if (typed.AllGood && (count < least || count > 1000))
            {
                typed.Refuse(field, $"Type a number from {least} to 1,000.");
            }

            return count;
        }
    }

    private static async Task<IReadOnlyList<(int Rank, Slot Slot)>> ChoicesAsync(
        HatcheryDb db, CurrentUser user, AskForm form, SeasonAtHand season, TypedFields typed, CancellationToken cancel)
    {
        var sites = await db.ReleaseSites.Where(s => s.ProgrammeId == user.ProgrammeId).Select(s => s.Id).ToListAsync(cancel);
        string[] names = [nameof(form.First), nameof(form.Second), nameof(form.Third)];
        var choices = new List<(int Rank, Slot Slot)>();
        foreach (var (index, choice) in form.Choices.Index())
        {
            if (choice.IsEmpty && index > 0)
            {
                continue;
            }

            var site = typed.Choice(names[index], choice.Site, "Choose the place.");
            var day = typed.Day(names[index], choice.On);
            var part = typed.Choice<DayPart>(names[index], choice.Part, "Choose morning or afternoon.");
            if (typed.AllGood && !sites.Contains(site))
            {
                typed.Refuse(names[index], "This place is not in the list any more. Choose another.");
            }
            else if (typed.AllGood && (day < season.Today || day > season.Today.AddYears(1)))
            {
                typed.Refuse(names[index], "Choose a day from today to a year from now.");
            }

            var slot = new Slot(site, day, part);
            if (typed.AllGood && choices.Any(c => c.Slot == slot))
            {
                typed.Refuse(names[index], "This is one of the choices above. Name another, or leave it empty.");
            }

            choices.Add((index + 1, slot));
        }

        return choices;
    }
}

using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Portal.Flags.Spares;
using Tankside.Portal.Places;
using Tankside.Portal.Releases;
using Tankside.Storage;

namespace Tankside.Portal.Flags;

/// <summary>Everything that open flags are put in order and worded with, read in a fixed number of queries.</summary>
internal sealed class RoundReader
{
    private readonly Programme programme;
    private readonly List<Flag> flags;
    private readonly DateTime now;
    private readonly Surroundings places;
    private readonly FishInTanks fish;
    private readonly SpareFinder spares;
    private readonly Dictionary<Guid, string> names;
    private readonly SchoolCalendar programmesDays;
    private readonly OwnTexts texts;

    private RoundReader(
        Programme programme, List<Flag> flags, DateTime now, Surroundings places, FishInTanks fish, SpareFinder spares, Dictionary<Guid, string> names, ProgrammeWays ways)
    {
        (this.programme, this.flags, this.now, this.places, this.fish, this.spares, this.names, texts) = (programme, flags, now, places, fish, spares, names, ways.Texts);
        programmesDays = places.All.FirstOrDefault()?.Calendar ?? ways.CalendarOf(new School { Name = "", Area = "" }, programme, now);
    }

    public static async Task<RoundReader> LoadAsync(
        HatcheryDb db, Programme programme, ProgrammeWays ways, List<Flag> flags, List<Guid> tankIds, DateTime now, CancellationToken cancel)
    {
        var takers = flags.Select(f => f.TakenBy).OfType<Guid>().Distinct().ToList();
        return new RoundReader(
            programme, flags, now,
            await Surroundings.LoadAsync(db, tankIds, cancel),
            await FishInTanks.LoadAsync(db, tankIds, cancel),
            await SpareFinder.LoadAsync(db, programme.Id, cancel),
            await db.Users.Where(p => takers.Contains(p.Id)).Select(p => new { p.Id, p.Name }).ToDictionaryAsync(p => p.Id, p => p.Name, cancel),
            ways);
    }

    /// <summary>
    /// In the order of the round, resting ones among them. What rests is not weighed while its tank has other troubles: its place is taken by
    /// the promise.
    /// </summary>
    public List<RoundRow> Rows()
    {
        var byTank = flags.Where(f => f.TankId is { } id && places.Knows(id)).GroupBy(f => f.TankId!.Value).ToDictionary(g => g.Key, g => g.ToList());
        var troubled = byTank.Select(t => new TroubledTank<Flag>(
            places.Of(t.Key).Profile(), fish.Of(t.Key), places.Of(t.Key).Calendar, [.. Weighed(t.Value).Select(f => (f, f.AsFinding()))]));
        var shared = flags.Where(f => f.CauseBy is not null).Select(f => new SharedTrouble<Flag>(f, f.AsFinding(), programmesDays));
        var entries = MorningRound.Order(troubled, shared, now);
        var calls = entries.OfType<RoundEntry<Flag>.OfTank>().ToDictionary(e => e.Call.Tank.Code, e => Row(e.Call, byTank[e.Call.Tank.Id]));
        return [.. entries.Select<RoundEntry<Flag>, RoundRow>(entry => entry switch
        {
            RoundEntry<Flag>.OfTank tank => calls[tank.Call.Tank.Code],
            RoundEntry<Flag>.OfShared cause => Row(cause, calls),
            _ => throw new InvalidOperationException($"neither a tank nor a shared cause: {entry.GetType().Name}"),
        })];
    }

    private IEnumerable<Flag> Weighed(List<Flag> of) => of.TrueForAll(f => f.RestsAt(now)) ? of : of.Where(f => !f.RestsAt(now));

    private RoundCall Row(Call<Flag> call, List<Flag> own)
    {
        var place = places.Of(call.Tank.Id);
        var words = new ReasonWords(place.Calendar, call.Fish, now, programme.ScreenUnit, place.Names);
        var near = spares.For(place, call.Troubles.Select(t => t.Finding.Kind));
        // The spare is said once, with what leads.
        var weighed = call.Troubles.Select((t, i) => Worded(t, words, i == 0 ? near : []));
        var beside = own.Where(f => call.Troubles.All(t => t.Key != f))
            .Select(f => new RoundTrouble(f, 0, 0, null, words.Of(f.AsFinding()), TakerOf(f), f.RestsUntil));
        return new RoundCall(call, place, [.. weighed, .. beside], near);
    }

    private RoundShared Row(RoundEntry<Flag>.OfShared cause, Dictionary<string, RoundCall> calls)
    {
        var words = new ReasonWords(programmesDays, cause.Fish, now, programme.ScreenUnit, StageNames.Of(texts));
        return new RoundShared(
            Worded(cause.Trouble, words, []), cause.Evidence, programmesDays,
            [.. cause.Evidence.Tanks.Select(t => calls.GetValueOrDefault(t.Code)).OfType<RoundCall>()])
        {
            Texts = texts,
        };
    }

    private RoundTrouble Worded(RankedTrouble<Flag> trouble, ReasonWords words, IReadOnlyList<SpareShown> near)
    {
        var reason = words.Of(trouble.Finding);
        if (near.Count > 0 && SpareKinds.For(trouble.Finding.Kind).Contains(near[0].Offer.Item.Kind))
        {
            reason = $"{reason.TrimEnd('.')}; {SpareWords.Nearest(near[0])}.";
        }

        if (trouble.Key.PromiseFellDue)
        {
            reason = $"What was promised was due and is not done. {reason}";
        }

        return new RoundTrouble(
            trouble.Key, trouble.Rank, trouble.ExpectedLoss, trouble.HoursLeft, reason, TakerOf(trouble.Key),
            trouble.Key.RestsAt(now) ? trouble.Key.RestsUntil : null);
    }

    private string? TakerOf(Flag flag) => flag.TakenBy is { } by ? names.GetValueOrDefault(by) : null;
}

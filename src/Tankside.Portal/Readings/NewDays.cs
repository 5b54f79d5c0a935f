using Tankside.Storage;

namespace Tankside.Portal.Readings;

/// <summary>
/// Which days of which tanks a batch touches, said by as few facts as will do: of a UTC day the first reading and the last lie on whatever
/// local days it has part in, in any time zone.
/// </summary>
internal sealed class NewDays
{
    private readonly Dictionary<(Guid Tank, DateOnly Day), (DateTime First, DateTime Last)> days = [];

    public void Add(Guid tank, DateTime at)
    {
        var day = (tank, DateOnly.FromDateTime(at));
        days[day] = days.TryGetValue(day, out var span) ? (at < span.First ? at : span.First, at > span.Last ? at : span.Last) : (at, at);
    }

    public IReadOnlyList<UnjudgedFact> Facts =>
        [.. days.SelectMany(d => new[] { d.Value.First, d.Value.Last }.Distinct().Select(at => new UnjudgedFact { TankId = d.Key.Tank, At = at }))];
}

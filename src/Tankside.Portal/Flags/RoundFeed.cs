using Tankside.Portal.Shell;

namespace Tankside.Portal.Flags;

/// <summary>
/// Tells open pages, here and at the other portals, that a programme's round has changed. It carries no data: whoever listens asks again.
/// </summary>
public sealed class RoundFeed
{
    private const string Word = "round ";

    private readonly Neighbours neighbours;

    public RoundFeed(Neighbours neighbours)
    {
        this.neighbours = neighbours;
        neighbours.Heard += said =>
        {
            if (said.StartsWith(Word, StringComparison.Ordinal) && Guid.TryParse(said.AsSpan(Word.Length), out var programme))
            {
                Changed?.Invoke(programme);
            }
        };
    }

    public event Action<Guid>? Changed;

    public bool HasListeners => Changed is not null;

    /// <summary>To be called after the commit: who asks again must find the change.</summary>
    public void Tell(IEnumerable<Guid> programmes)
    {
        foreach (var programme in programmes)
        {
            Changed?.Invoke(programme);
            neighbours.Say(Word + programme);
        }
    }

    /// <summary>Lets the pages of this portal alone ask again.</summary>
    public void Refresh(IEnumerable<Guid> programmes)
    {
        foreach (var programme in programmes)
        {
            Changed?.Invoke(programme);
        }
    }
}

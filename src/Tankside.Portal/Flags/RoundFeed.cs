namespace Tankside.Portal.Flags;

/// <summary>Tells open pages of this process that a programme's round has changed. It carries no data: whoever listens asks again.</summary>
public sealed class RoundFeed
{
    public event Action<Guid>? Changed;

    public void Tell(IEnumerable<Guid> programmes)
    {
        foreach (var programme in programmes)
        {
            Changed?.Invoke(programme);
        }
    }
}

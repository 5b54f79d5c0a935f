using Tankside.Portal.Shell;

namespace Tankside.Portal.Readings;

/// <summary>
/// The word that something new was stored. It only hides the delay: whoever misses it finds the unjudged facts in the database at the next
/// sweep. It goes to every portal on the database, for whichever is free judges first.
/// </summary>
public sealed class NewFacts
{
    private const string Word = "facts";

    private readonly Bell bell = new();
    private readonly Neighbours neighbours;

    public NewFacts(Neighbours neighbours)
    {
        this.neighbours = neighbours;
        neighbours.Heard += said =>
        {
            if (said == Word)
            {
                bell.Ring();
            }
        };
        neighbours.Back += bell.Ring;
    }

    public void Tell()
    {
        bell.Ring();
        neighbours.Say(Word);
    }

    /// <summary>Waits for the word, or until it is time for a sweep; true when the word came.</summary>
    public Task<bool> WaitAsync(TimeSpan atMost, TimeProvider time, CancellationToken cancel) => bell.WaitAsync(atMost, time, cancel);
}

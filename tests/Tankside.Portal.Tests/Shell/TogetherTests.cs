using Npgsql;
using Tankside.Portal.Shell;

namespace Tankside.Portal.Tests.Shell;

/// <summary>What becomes of a batch that cannot be stored.</summary>
public class TogetherTests
{
    [Fact]
    public async Task While_the_database_is_away_nobody_of_a_batch_waits_for_the_others_to_be_tried()
    {
        using var together = new Failing(new NpgsqlException("The operation has timed out"));

        await together.SendThreeAsync();

        Assert.Equal([1, 2], together.Tried);
    }

    [Fact]
    public async Task One_that_cannot_be_stored_fails_alone()
    {
        using var together = new Failing(new InvalidOperationException("a bug"));

        await together.SendThreeAsync();

        Assert.Equal([1, 2, 1, 1], together.Tried);
    }

    /// <summary>Stores nothing; the first that comes holds the others up until all are there.</summary>
    private sealed class Failing(Exception trouble) : Together<int, int>
    {
        private readonly TaskCompletionSource all = new(TaskCreationOptions.RunContinuationsAsynchronously);

        /// <summary>How many there were in each batch.</summary>
        public List<int> Tried { get; } = [];

        public async Task SendThreeAsync()
        {
            Task[] sent = [SendAsync(1), SendAsync(2), SendAsync(3)];
            all.SetResult();
            foreach (var one in sent)
            {
                Assert.Same(trouble, await Record.ExceptionAsync(() => one));
            }
        }

        protected override async Task<IReadOnlyList<int>> TakeAsync(IReadOnlyList<int> batch)
        {
            Tried.Add(batch.Count);
            await all.Task;
            throw trouble;
        }
    }
}

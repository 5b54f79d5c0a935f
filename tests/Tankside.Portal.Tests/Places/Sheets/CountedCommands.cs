using System.Diagnostics;
using Microsoft.EntityFrameworkCore.Diagnostics;

namespace Tankside.Portal.Tests.Places.Sheets;

/// <summary>Counts what the database is asked, by the traces that the mapper leaves in this test's own flow.</summary>
internal sealed class CountedCommands : IObserver<DiagnosticListener>, IObserver<KeyValuePair<string, object?>>
{
    private static readonly AsyncLocal<CountedCommands?> Current = new();

    private int count;

    public CountedCommands() => DiagnosticListener.AllListeners.Subscribe(this);

    public void Begin() => (Current.Value, count) = (this, 0);

    public int End()
    {
        Current.Value = null;
        Assert.NotEqual(0, count);
        return count;
    }

    public void OnNext(DiagnosticListener value)
    {
        if (value.Name == Microsoft.EntityFrameworkCore.DbLoggerCategory.Name)
        {
            value.Subscribe(this);
        }
    }

    public void OnNext(KeyValuePair<string, object?> value)
    {
        if (value.Key == RelationalEventId.CommandExecuted.Name && Current.Value == this)
        {
            Interlocked.Increment(ref count);
        }
    }

    public void OnCompleted()
    {
    }

    public void OnError(Exception error)
    {
    }
}

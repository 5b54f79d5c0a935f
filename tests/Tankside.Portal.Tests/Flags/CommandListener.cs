using System.Collections.Concurrent;
using System.Diagnostics;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Diagnostics;
using Npgsql;

namespace Tankside.Portal.Tests.Flags;

/// <summary>
/// Hears every command that goes to one database. It has to be there before the first context is: EF remembers for a second that nobody
/// listens.
/// </summary>
public sealed class CommandListener : IObserver<DiagnosticListener>, IObserver<KeyValuePair<string, object?>>, IDisposable
{
    private readonly IDisposable all;
    private readonly ConcurrentDictionary<NpgsqlConnection, bool> heard = new();
    private readonly ConcurrentBag<IDisposable> ours = [];
    private string? connection;

    public CommandListener() => all = DiagnosticListener.AllListeners.Subscribe(this);

    public ConcurrentQueue<string> Commands { get; } = new();

    /// <summary>How PostgreSQL answered them, where it was told to say so.</summary>
    public ConcurrentQueue<string> Plans { get; } = new();

    /// <summary>Forgets what it heard and hears what goes to this database from now on.</summary>
    public void HearOnly(string connectionString)
    {
        connection = connectionString;
        Commands.Clear();
        Plans.Clear();
    }

    public void OnNext(DiagnosticListener value)
    {
        if (value.Name == "Microsoft.EntityFrameworkCore")
        {
            ours.Add(value.Subscribe(this));
        }
    }

    public void OnNext(KeyValuePair<string, object?> value)
    {
        if (value.Key == RelationalEventId.CommandExecuted.Name && value.Value is CommandExecutedEventData { Command: var command, Context.Database: var database }
            && database.GetConnectionString() == connection)
        {
            Commands.Enqueue(command.CommandText);
        }
        else if (value.Key == RelationalEventId.ConnectionOpened.Name && value.Value is ConnectionEndEventData { Connection: NpgsqlConnection opened, Context.Database: var place }
            && place.GetConnectionString() == connection && heard.TryAdd(opened, true))
        {
            opened.Notice += (_, said) => Plans.Enqueue(said.Notice.MessageText);
        }
    }

    public void OnCompleted()
    {
    }

    public void OnError(Exception error)
    {
    }

    public void Dispose()
    {
        all.Dispose();
        foreach (var one in ours)
        {
            one.Dispose();
        }
    }
}

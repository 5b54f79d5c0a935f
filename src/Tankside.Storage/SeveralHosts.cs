using System.Data.Common;
using Npgsql;

namespace Tankside.Storage;

/// <summary>
/// A PostgreSQL of a primary and its replicas, named as "Host=a,b". What is written goes to whichever of them is the primary; the driver asks
/// them, and finds a replica that was made the primary without a word from anybody.
/// </summary>
public static class SeveralHosts
{
    public static bool IsOnSeveral(this DatabaseChoice choice) => choice.Kind == DatabaseKind.PostgreSQL && Names(new NpgsqlConnectionStringBuilder(choice.ConnectionString));

    /// <summary>The same connection string with what several hosts need and nobody gave; one that names a single host stays as it is.</summary>
    /// <exception cref="ArgumentException">It asks for hosts that cannot be written to.</exception>
    public static string Primary(string connectionString)
    {
        var words = new NpgsqlConnectionStringBuilder(connectionString);
        if (!Names(words))
        {
            return words.ConnectionString;
        }

        words.TargetSessionAttributes ??= "primary";
        if (words.TargetSessionAttributes is not ("primary" or "read-write"))
        {
            throw new ArgumentException(
                $"\"Target Session Attributes={words.TargetSessionAttributes}\" may end at a replica, which takes no write. With several hosts it is \"primary\", or is left out.");
        }

        return WithShortPatience(words, connectionString).ConnectionString;
    }

    /// <summary>The same hosts, a replica first; the primary when there is none.</summary>
    public static string Replica(string connectionString) =>
        new NpgsqlConnectionStringBuilder(connectionString) { TargetSessionAttributes = "prefer-standby" }.ConnectionString;

    /// <summary>
    /// What the driver knows of a host is asked anew every two seconds, so that a new primary is found that soon; and a machine that answers nothing,
    /// because it is switched off, costs three seconds and not fifteen.
    /// </summary>
    private static NpgsqlConnectionStringBuilder WithShortPatience(NpgsqlConnectionStringBuilder words, string given)
    {
        if (!IsGiven(given, "Host Recheck Seconds"))
        {
            words.HostRecheckSeconds = 2;
        }

        if (!IsGiven(given, "Timeout"))
        {
            words.Timeout = 3;
        }

        return words;
    }

    private static bool IsGiven(string connectionString, string key)
    {
        // The driver's own builder says of every key it knows that it is there.
        var words = new DbConnectionStringBuilder { ConnectionString = connectionString };
        return words.ContainsKey(key) || words.ContainsKey(key.Replace(" ", "", StringComparison.Ordinal));
    }

    private static bool Names(NpgsqlConnectionStringBuilder words) => words.Host?.Contains(',', StringComparison.Ordinal) == true;
}

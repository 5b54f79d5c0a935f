using Microsoft.EntityFrameworkCore;
using Npgsql;

namespace Tankside.Portal.Tests.Flags;

/// <summary>Has PostgreSQL tell how it answers each question.</summary>
public static class PlanTelling
{
    /// <param name="onlyByIndex">True to have it read through a table only where no index serves, however small the table is.</param>
    public static async Task StartAsync(PortalHost host, bool onlyByIndex)
    {
        var name = new NpgsqlConnectionStringBuilder(host.Database.ConnectionString).Database!;
        (string Setting, string Value)[] settings =
        [
            ("session_preload_libraries", "auto_explain"), ("auto_explain.log_min_duration", "0"), ("auto_explain.log_level", "notice"), ("jit", "off"),
            .. onlyByIndex ? [("enable_seqscan", "off")] : new[] { ("auto_explain.log_analyze", "on"), ("auto_explain.log_timing", "off") },
        ];
        await using var db = host.OpenDb();
        foreach (var (setting, value) in settings)
        {
            // The name of a throw-away database and words of our own: nothing that anybody typed.
#pragma warning disable EF1002
            await db.Database.ExecuteSqlRawAsync($"ALTER DATABASE \"{name}\" SET {setting} = {value}");
#pragma warning restore EF1002
        }

        NpgsqlConnection.ClearAllPools();
    }
}

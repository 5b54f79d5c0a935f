using Microsoft.EntityFrameworkCore;
using Npgsql;

namespace Tankside.Portal.Tests.Flags;

/// <summary>Has PostgreSQL tell how it answers each question.</summary>
public static class PlanTelling
{
    /// <summary>
    /// Of a table that was looked through, the server knows how few rows it has, and takes any index for as good. Whether it was looked through
    /// depends on the time of day, so that is forgotten and not done again.
    /// </summary>
    private const string ForgetSizes =
        """
        DO $$ DECLARE t text; BEGIN
            FOR t IN SELECT oid::regclass::text FROM pg_class WHERE relkind = 'r' AND relnamespace = 'public'::regnamespace LOOP
                EXECUTE 'ALTER TABLE ' || t || ' SET (autovacuum_enabled = false)';
            END LOOP;
            UPDATE pg_class SET relpages = 0, reltuples = CASE relkind WHEN 'i' THEN 0 ELSE -1 END
                WHERE relkind IN ('r', 'i') AND relnamespace = 'public'::regnamespace;
            DELETE FROM pg_statistic WHERE starelid IN (SELECT oid FROM pg_class WHERE relnamespace = 'public'::regnamespace);
        END $$
        """;

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

        if (onlyByIndex)
        {
            await db.Database.ExecuteSqlRawAsync(ForgetSizes);
        }

        NpgsqlConnection.ClearAllPools();
    }
}

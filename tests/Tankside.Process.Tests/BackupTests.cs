using Microsoft.EntityFrameworkCore;
using Npgsql;
using Tankside.Hatchery.People;
using Tankside.Portal.Commands.Backups;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Process.Tests;

/// <summary>What backup and restore refuse, what they leave as it was, and what they say.</summary>
public class BackupTests(BackedUpDatabases backedUp) : IClassFixture<BackedUpDatabases>
{
    [Fact]
    public async Task A_backup_cut_short_and_one_of_a_newer_program_are_refused_and_nothing_is_changed()
    {
        await using var empty = await TestDatabase.CreateEmptyAsync(DatabaseKind.Sqlite);
        using var installation = Installation.On(empty);
        var (cut, newer) = (Path.Combine(installation.Folder, "cut.zip"), Path.Combine(installation.Folder, "newer.zip"));
        await File.WriteAllBytesAsync(cut, (await File.ReadAllBytesAsync(await backedUp.BackupOfAsync(DatabaseKind.Sqlite)))[..^1]);
        await OfANewerProgramAsync(newer, DatabaseKind.Sqlite);

        var answers = await Task.WhenAll(installation.RunAsync("restore", "--from", cut), installation.RunAsync("restore", "--from", newer));

        Assert.All(answers, answer => Assert.Equal((1, ""), (answer.ExitCode, answer.Output)));
        Assert.Contains("its end is missing. Nothing was changed.", answers[0].Trouble, StringComparison.Ordinal);
        Assert.Contains("newer than this program", answers[1].Trouble, StringComparison.Ordinal);
        Assert.Empty(Directory.GetFileSystemEntries(Path.GetDirectoryName(SqliteCopy.FileOf(empty.Choice))!));
    }

    [Theory, BothDatabases]
    public async Task A_database_that_holds_a_programme_is_not_restored_into(DatabaseKind kind)
    {
        var backup = await backedUp.BackupOfAsync(kind);
        var database = await backedUp.OfAsync(kind);
        using var installation = Installation.On(database);
        await using var db = database.CreateDbContext();
        var before = await db.Readings.CountAsync();

        var answer = await installation.RunAsync("restore", "--from", backup);

        Assert.Equal((1, ""), (answer.ExitCode, answer.Output));
        Assert.Contains(kind == DatabaseKind.Sqlite ? "holds a programme" : "Make an empty one", answer.Trouble, StringComparison.Ordinal);
        Assert.Equal(before, await db.Readings.CountAsync());
    }

    [Theory, BothDatabases]
    public async Task A_backup_of_the_schema_before_changes_nothing_there_and_comes_back_with_the_newest(DatabaseKind kind)
    {
        await using var older = await TestDatabase.CreateAsync(kind);
        await using var empty = await TestDatabase.CreateEmptyAsync(kind);
        using var before = Installation.On(older);
        using var after = Installation.On(empty);
        await TestWorld.SeedAsync(older);
        await using var source = older.CreateDbContext();
        var previous = source.Database.GetMigrations().SkipLast(1).Last();
        await older.MigrateAsync(previous);

        (await before.RunAsync("backup", "--out", "old.zip")).Good();
        (await after.RunAsync("restore", "--from", Path.Combine(before.Folder, "old.zip"))).Good();

        Assert.Equal(previous, (await source.Database.GetAppliedMigrationsAsync()).Last());
        await using var db = empty.CreateDbContext();
        Assert.Empty(await db.Database.GetPendingMigrationsAsync());
        Assert.Equal(BackedUpDatabases.Tanks, await db.Tanks.CountAsync());
    }

    [Theory, BothDatabases]
    public async Task A_backup_is_tried_in_a_database_that_is_thrown_away_and_compared_with_the_running_one(DatabaseKind kind)
    {
        var backup = await backedUp.BackupOfAsync(kind);
        using var installation = Installation.On(await backedUp.OfAsync(kind));

        var answer = (await installation.RunAsync("restore", "--from", backup, "--try")).Good();

        Assert.Contains(answer.Lines, line => line.StartsWith("good: all ", StringComparison.Ordinal));
        Assert.Contains(answer.Lines, line => line.Contains("the account is now the same", StringComparison.Ordinal));
        if (kind == DatabaseKind.PostgreSQL)
        {
            await using var db = (await backedUp.OfAsync(kind)).CreateDbContext();
            Assert.Equal(0, await db.Database.SqlQuery<int>($"SELECT count(*)::int AS \"Value\" FROM pg_database WHERE datname LIKE 'tankside_try_%'").SingleAsync());
        }
    }

    [Theory, BothDatabases]
    public async Task A_full_disk_leaves_the_older_backup_and_no_half_one(DatabaseKind kind)
    {
        using var installation = Installation.On(await backedUp.OfAsync(kind));
        var file = Path.Combine(installation.Folder, "night.zip");
        await File.WriteAllTextAsync(file, "the night before");

        var answer = await installation.RunOnFullDiskAsync(4, "backup", "--out", "night.zip");

        Assert.Equal((1, ""), (answer.ExitCode, answer.Output));
        Assert.Contains("No backup was made", answer.Trouble, StringComparison.Ordinal);
        Assert.Contains("the older one is as it was", answer.Trouble, StringComparison.Ordinal);
        Assert.Equal("the night before", await File.ReadAllTextAsync(file));
        Assert.Equal([file], Directory.GetFileSystemEntries(installation.Folder));
    }

    [Fact]
    public async Task A_file_that_somebody_has_open_is_not_replaced_and_afterwards_it_is_kept_aside()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseKind.Sqlite);
        var file = SqliteCopy.FileOf(database.Choice);
        using var installation = Installation.On(database);
        var backup = await backedUp.BackupOfAsync(DatabaseKind.Sqlite);
        await using (var open = Unpooled(file))
        {
            open.Programmes.Add(new Programme { Id = Guid.NewGuid(), Name = "Old Mill", TimeZone = "UTC" });
            await open.Database.OpenConnectionAsync();
            await open.SaveChangesAsync();

            var refused = await installation.RunAsync("restore", "--from", backup, "--replace");

            Assert.Equal(1, refused.ExitCode);
            Assert.Contains("a portal runs. Stop it first. Nothing was changed.", refused.Trouble, StringComparison.Ordinal);
        }

        (await installation.RunAsync("restore", "--from", backup, "--replace")).Good();

        await using var db = Unpooled(file);
        Assert.Equal(BackedUpDatabases.Tanks, await db.Tanks.CountAsync());
        await using var old = Unpooled(Assert.Single(Directory.GetFiles(Path.GetDirectoryName(file)!, "*.before-*")));
        Assert.Equal("Old Mill", (await old.Programmes.SingleAsync()).Name);
    }

    [PostgresFact]
    public async Task A_database_that_was_never_set_up_is_filled_once_nobody_else_has_it_open()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseKind.PostgreSQL);
        using var installation = Installation.On(database);
        var backup = await backedUp.BackupOfAsync(DatabaseKind.PostgreSQL);
        await using var db = database.CreateDbContext();
        db.SetUpLinks.Add(new SetUpLink { Id = Guid.NewGuid(), Secret = "s", ExpiresAt = TestWorld.Now });
        await db.SaveChangesAsync();

        var refused = await installation.RunAsync("restore", "--from", backup);
        NpgsqlConnection.ClearPool((NpgsqlConnection)db.Database.GetDbConnection());
        (await installation.RunAsync("restore", "--from", backup)).Good();

        Assert.Equal(1, refused.ExitCode);
        Assert.Contains("Stop the portals first. Nothing was changed.", refused.Trouble, StringComparison.Ordinal);
        Assert.Equal(BackedUpDatabases.Tanks, await db.Tanks.CountAsync());
        Assert.Empty(await db.SetUpLinks.ToListAsync());
        db.Add(new UnjudgedFact { TankId = Guid.NewGuid(), At = TestWorld.Now });
        await db.SaveChangesAsync(); // Numbers that the database gives go on.
    }

    [Fact]
    public async Task A_backup_into_a_folder_is_the_owners_alone_and_the_doctor_finds_it()
    {
        using var installation = Installation.On(await backedUp.OfAsync(DatabaseKind.Sqlite));
        var folder = Directory.CreateDirectory(Path.Combine(installation.Folder, "nights")).FullName;
        installation.Settings["Tankside__Backups"] = folder;

        (await installation.RunAsync("backup", "--into", folder, "--keep", "14")).Good();
        var found = (await installation.RunAsync("doctor")).Good();

        Assert.Contains(found.Lines, line => line.StartsWith("good   backup: the newest is 0 hours old", StringComparison.Ordinal));
        var file = Assert.Single(Directory.GetFiles(folder));
        Assert.Matches(@"^tankside-\d{8}T\d{6}Z\.zip$", Path.GetFileName(file));
        Assert.True(OperatingSystem.IsWindows() || File.GetUnixFileMode(file) == (UnixFileMode.UserRead | UnixFileMode.UserWrite));
    }

    [Fact]
    public async Task Of_a_folder_only_old_backups_of_this_program_go_and_never_the_newest()
    {
        var backup = await backedUp.BackupOfAsync(DatabaseKind.Sqlite);
        var folder = Directory.CreateTempSubdirectory("tankside-nights-").FullName;
        string[] names = ["tankside-20260101T030000Z.zip", "tankside-20260102T030000Z.zip", "tankside-20260103T030000Z.zip", "holiday-20260101.zip", "tankside-20260101T030000Z.zip.age"];
        foreach (var name in names)
        {
            File.Copy(backup, Path.Combine(folder, name));
        }

        await File.WriteAllTextAsync(Path.Combine(folder, names[1]), "somebody else's");

        var dropped = await KeptBackups.DropOldAsync(folder, new DateTime(2027, 1, 1, 0, 0, 0, DateTimeKind.Utc), CancellationToken.None);

        Assert.Equal(1, dropped);
        Assert.Equal(names.Skip(1).Order(), Directory.GetFiles(folder).Select(Path.GetFileName).Order());
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task Every_wrong_bit_and_every_missing_end_is_found()
    {
        var folder = Directory.CreateTempSubdirectory("tankside-bits-").FullName;
        var file = Path.Combine(folder, "small.zip");
        await OfANewerProgramAsync(file, DatabaseKind.Sqlite);
        var whole = await File.ReadAllBytesAsync(file);
        Assert.NotNull((await BackupFile.OpenAsync(file, null, CancellationToken.None)).About);

        for (var at = 0; at < whole.Length; at++)
        {
            byte[] flipped = [.. whole];
            flipped[at] ^= (byte)(1 << (at % 8));
            Assert.NotNull(await RefusalOfAsync(flipped));
            Assert.NotNull(await RefusalOfAsync(whole[..at]));
        }

        Directory.Delete(folder, recursive: true);

        async Task<string?> RefusalOfAsync(byte[] content)
        {
            await File.WriteAllBytesAsync(file, content);
            return (await BackupFile.OpenAsync(file, null, CancellationToken.None)).Refusal;
        }
    }

    private static HatcheryDb Unpooled(string file) =>
        new((DbContextOptions<HatcheryDb>)Databases.Use(new DbContextOptionsBuilder<HatcheryDb>(), SqliteCopy.ChoiceOf(file)).Options);

    private static Task OfANewerProgramAsync(string file, DatabaseKind kind) => BackupFile.WriteAsync(
        file,
        async zip => new BackupAbout(
            BackupAbout.NewestFormat, "9.0.0", TestWorld.Now, kind, "20990101000000_Later", [],
            [await BackupFile.AddAsync(zip, "tankside.db", _ => Task.CompletedTask, CancellationToken.None)]),
        CancellationToken.None);
}

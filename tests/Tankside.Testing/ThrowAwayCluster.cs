using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;

namespace Tankside.Testing;

/// <summary>A PostgreSQL cluster in a temporary folder, fast because it need not survive anything, stopped when the process ends.</summary>
internal sealed class ThrowAwayCluster
{
    private const int StartTries = 3;

    private readonly string binaries;
    private readonly string folder;

    private ThrowAwayCluster(string binaries)
    {
        this.binaries = binaries;
        folder = NewFolder();
    }

    public string ConnectionString { get; private set; } = "";

    private string Data => Path.Combine(folder, "data");

    public static ThrowAwayCluster Start(string binaries)
    {
        var cluster = new ThrowAwayCluster(binaries);
        if (Environment.IsPrivilegedProcess)
        {
            Programs.Run("chown", ["postgres", cluster.folder], "/");
        }

        cluster.RemoveWithTheProcess();
        var (initdb, arguments) = cluster.AsPostgres(
            "initdb", ["-N", "-A", "trust", "-U", "postgres", "--locale=C.UTF-8", "-E", "UTF8", "-D", cluster.Data]);
        Programs.RunQuietly(initdb, arguments, cluster.folder);
        for (var attempt = 1; ; attempt++)
        {
            try
            {
                cluster.Listen(FreePort());
                return cluster;
            }
            catch (InvalidOperationException) when (attempt < StartTries)
            {
                // Somebody took the free port first; ask for another.
            }
        }
    }

    /// <summary>In memory where the system has room for it: a database for each test is a thousand new files, which some disks make slowly.</summary>
    private static string NewFolder()
    {
        const long Enough = 2L << 30; // bytes
        var memory = new DriveInfo("/dev/shm");
        return memory.IsReady && memory.DriveFormat == "tmpfs" && memory.AvailableFreeSpace > Enough
            ? Directory.CreateDirectory(Path.Combine(memory.Name, $"tankside-postgres-{Guid.NewGuid():n}")).FullName
            : Directory.CreateTempSubdirectory("tankside-postgres-").FullName;
    }

    private void Listen(int port)
    {
        Run(
            "pg_ctl", "-w", "-s", "-D", Data, "-l", Path.Combine(folder, "log"), "-o",
            $"-p {port} -c listen_addresses=127.0.0.1 -c unix_socket_directories={folder} -c max_connections=300 "
            + "-c fsync=off -c synchronous_commit=off -c full_page_writes=off",
            "start");
        ConnectionString = $"Host=127.0.0.1;Port={port};Username=postgres;Database=postgres";
    }

    private void Run(string program, params string[] arguments)
    {
        var (command, all) = AsPostgres(program, arguments);
        Programs.Run(command, all, folder);
    }

    /// <summary>PostgreSQL refuses to run as root; there it runs as the account its package made.</summary>
    private (string Command, string[] Arguments) AsPostgres(string program, string[] arguments)
    {
        var path = Path.Combine(binaries, program);
        return !Environment.IsPrivilegedProcess ? (path, arguments)
            : Programs.OnPath("setpriv") is { } setpriv
                ? (setpriv, ["--reuid=postgres", "--regid=postgres", "--init-groups", "--", path, .. arguments])
                : ("runuser", ["-u", "postgres", "--", path, .. arguments]);
    }

    /// <summary>
    /// A small shell waits for this process to end, however it ends, and then stops the server and deletes its folder. The test runner
    /// grants no time for it at exit.
    /// </summary>
    private void RemoveWithTheProcess()
    {
        const string Script = """
            exec </dev/null >/dev/null 2>&1
            trap '' HUP INT TERM
            process=$1 folder=$2
            shift 2
            while kill -0 "$process"; do sleep 1; done
            "$@"
            rm -rf -- "$folder"
            """;
        var (stop, arguments) = AsPostgres("pg_ctl", ["-D", Data, "-m", "immediate", "stop"]);
        var watcher = new ProcessStartInfo(
            "sh", ["-c", Script, "sh", Environment.ProcessId.ToString(CultureInfo.InvariantCulture), folder, stop, .. arguments]);
        Process.Start(watcher)?.Dispose();
    }

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}

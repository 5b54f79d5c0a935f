using System.Diagnostics;
using System.Globalization;

namespace Tankside.Testing;

/// <summary>A PostgreSQL cluster in a temporary folder, fast because it need not survive the machine, stopped when the process ends.</summary>
internal sealed class ThrowAwayCluster
{
    private const int StartTries = 3;

    /// <summary>It need not outlive a power cut, only its own processes.</summary>
    private const string Hasty = "-c fsync=off -c full_page_writes=off";

    private readonly string binaries;
    private readonly string folder;
    private readonly string settings;

    private ThrowAwayCluster(string binaries, string settings, string? folder = null)
    {
        this.binaries = binaries;
        this.settings = settings;
        this.folder = folder ?? NewFolder();
        if (Environment.IsPrivilegedProcess)
        {
            Programs.Run("chown", ["postgres", this.folder], "/");
        }

        RemoveWithTheProcess();
    }

    public int Port { get; private set; }

    public string ConnectionString => $"Host=127.0.0.1;Port={Port};Username=postgres;Database=postgres";

    public string Data => Path.Combine(folder, "data");

    /// <summary>A server alone, which answers before anything is on a disk.</summary>
    public static ThrowAwayCluster Start(string binaries) => Start(binaries, "-c synchronous_commit=off");

    /// <param name="settings">For the server's command line.</param>
    /// <param name="folder">An empty one for its files; null for a new one.</param>
    public static ThrowAwayCluster Start(string binaries, string settings, string? folder = null)
    {
        var cluster = new ThrowAwayCluster(binaries, settings, folder);
        var (initdb, arguments) = cluster.AsPostgres(
            "initdb", ["-N", "-A", "trust", "-U", "postgres", "--locale=C.UTF-8", "-E", "UTF8", "-D", cluster.Data]);
        Programs.RunQuietly(initdb, arguments, cluster.folder);
        return cluster.Listening();
    }

    /// <summary>A server whose data folder a script makes, called with it last.</summary>
    public static ThrowAwayCluster StartFrom(string binaries, string settings, Func<ThrowAwayCluster, string[]> script)
    {
        var cluster = new ThrowAwayCluster(binaries, settings);
        cluster.RunScript(script(cluster));
        return cluster.Listening();
    }

    /// <summary>Runs a shell script as the account of PostgreSQL, the server's own programs first on its path.</summary>
    public void RunScript(params string[] words)
    {
        // Its text is handed over: the account may not read where the tests lie.
        var (command, all) = AsPostgres("/usr/bin/env", [$"PATH={binaries}:{Environment.GetEnvironmentVariable("PATH")}", "sh", "-c", File.ReadAllText(words[0]), words[0], .. words[1..]]);
        Programs.RunQuietly(command, all, folder);
    }

    /// <summary>Ends the server and all that serve in it as a power cut does: SIGKILL, nothing is told to them.</summary>
    public void Kill()
    {
        var server = int.Parse(File.ReadLines(Path.Combine(Data, "postmaster.pid")).First(), CultureInfo.InvariantCulture);
        foreach (var id in new[] { server }.Concat(ChildrenOf(server)))
        {
            try
            {
                using var process = Process.GetProcessById(id);
                process.Kill();
                process.WaitForExit();
            }
            catch (Exception e) when (e is ArgumentException or InvalidOperationException)
            {
                // Gone by itself.
            }
        }
    }

    /// <summary>Stops the server, if it runs.</summary>
    public void Stop()
    {
        try
        {
            var (command, all) = AsPostgres("pg_ctl", ["-s", "-D", Data, "-m", "immediate", "stop"]);
            Programs.RunQuietly(command, all, folder);
        }
        catch (InvalidOperationException)
        {
            // Killed already.
        }
    }

    /// <summary>Stops and starts it on the same port, as its programs do it.</summary>
    /// <param name="mode">How it stops: fast or immediate.</param>
    public void Restart(string mode) => Run("pg_ctl", "-w", "-s", "-D", Data, "-l", Path.Combine(folder, "log"), "-m", mode, "restart");

    /// <summary>The same port once more, after it was stopped or killed.</summary>
    public void StartAgain() => Listen(Port);

    private ThrowAwayCluster Listening()
    {
        for (var attempt = 1; ; attempt++)
        {
            try
            {
                Listen(Loopback.FreePort());
                return this;
            }
            catch (InvalidOperationException) when (attempt < StartTries)
            {
                // Somebody took the free port first; ask for another.
            }
        }
    }

    private static List<int> ChildrenOf(int server) => [.. Directory.GetDirectories("/proc")
        .Select(folder => int.TryParse(Path.GetFileName(folder), CultureInfo.InvariantCulture, out var id) ? id : 0)
        .Where(id => id > 0 && ParentOf(id) == server)];

    /// <summary>The fourth word; the second is a name in brackets, which may hold spaces.</summary>
    private static int ParentOf(int process)
    {
        try
        {
            var text = File.ReadAllText($"/proc/{process}/stat");
            return int.Parse(text[(text.LastIndexOf(')') + 2)..].Split(' ')[1], CultureInfo.InvariantCulture);
        }
        catch (IOException)
        {
            return 0;
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
            $"-p {port} -c listen_addresses=127.0.0.1 -c unix_socket_directories={folder} -c max_connections=300 {Hasty} {settings}",
            "start");
        Port = port;
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
}

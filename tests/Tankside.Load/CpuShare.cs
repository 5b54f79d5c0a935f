using System.Globalization;

namespace Tankside.Load;

/// <summary>Holds a process to a fixed share of one core, by the kernel's own quota. Needs the right to make a control group.</summary>
public sealed class CpuShare : IDisposable
{
    private const int Period = 20_000; // microseconds

    private const string First = "/sys/fs/cgroup/cpu", Second = "/sys/fs/cgroup";

    private readonly string folder;

    private CpuShare(string folder) => this.folder = folder;

    /// <summary>Null where nobody may hold a process to anything.</summary>
    public static CpuShare? TryHold(int process, double share)
    {
        var isFirst = File.Exists(Path.Combine(First, "cpu.cfs_quota_us")) || Directory.Exists(First);
        var folder = Path.Combine(isFirst ? First : Second, $"tankside-{process}");
        try
        {
            var quota = (share * Period).ToString("0", CultureInfo.InvariantCulture);
            if (isFirst)
            {
                Directory.CreateDirectory(folder);
                Write(folder, "cpu.cfs_period_us", Period.ToString(CultureInfo.InvariantCulture));
                Write(folder, "cpu.cfs_quota_us", quota);
            }
            else
            {
                Write(Second, "cgroup.subtree_control", "+cpu");
                Directory.CreateDirectory(folder);
                Write(folder, "cpu.max", $"{quota} {Period}");
            }

            Write(folder, "cgroup.procs", process.ToString(CultureInfo.InvariantCulture));
            return new CpuShare(folder);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }

    /// <summary>Periods in which it ran, and in how many of them it had to stop before the end.</summary>
    public (long Periods, long Stopped) Told()
    {
        var lines = File.ReadAllLines(Path.Combine(folder, "cpu.stat")).Select(l => l.Split(' ')).ToDictionary(l => l[0], l => long.Parse(l[1], CultureInfo.InvariantCulture));
        return (lines["nr_periods"], lines["nr_throttled"]);
    }

    /// <summary>When its process has ended.</summary>
    public void Dispose() => Directory.Delete(folder);

    private static void Write(string folder, string file, string value) => File.WriteAllText(Path.Combine(folder, file), value);
}

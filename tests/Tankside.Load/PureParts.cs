using BenchmarkDotNet.Configs;
using BenchmarkDotNet.Jobs;
using BenchmarkDotNet.Running;
using BenchmarkDotNet.Toolchains.InProcess.Emit;

namespace Tankside.Load;

/// <summary>What needs no database and no HTTP, measured by BenchmarkDotNet, in this process: it finds by itself how often a piece has to be done to be timed.</summary>
public static class PureParts
{
    /// <typeparam name="TBoth">The class with both sides as benchmarks.</typeparam>
    /// <param name="portal">The method that is ours.</param>
    /// <param name="bare">The one beside it.</param>
    public static Comparison Run<TBoth>(string what, bool quick, string portal, string bare)
    {
        var job = Job.Default.WithToolchain(InProcessEmitToolchain.Instance).WithWarmupCount(2).WithIterationCount(quick ? 3 : 15);
        var reports = BenchmarkRunner.Run<TBoth>(ManualConfig.CreateEmpty().AddJob(job).WithOptions(ConfigOptions.DisableLogFile)).Reports;
        return Comparison.Of(what, null, Comparison.AsSeconds, SidesOf(portal).Zip(SidesOf(bare)));

        IEnumerable<Side> SidesOf(string method) => reports.Single(r => r.BenchmarkCase.Descriptor.WorkloadMethod.Name == method).GetResultRuns()
            .Select(run => new Side(run.GetAverageTime().ToSeconds()));
    }
}

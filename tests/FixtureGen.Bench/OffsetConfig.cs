using BenchmarkDotNet.Columns;
using BenchmarkDotNet.Configs;
using BenchmarkDotNet.Diagnosers;
using BenchmarkDotNet.Jobs;
using BenchmarkDotNet.Loggers;
using BenchmarkDotNet.Toolchains.InProcess.Emit;
using Perfolizer.Horology;

namespace FixtureGen.Bench;

/// <summary>
/// One process, both sides by turns, medians: the machine's moods touch both alike. The column Ratio says how many times the
/// kernel's own time a row takes.
/// </summary>
internal sealed class OffsetConfig : ManualConfig
{
    public OffsetConfig()
    {
        AddJob(
            Job.Default.WithToolchain(InProcessEmitToolchain.Instance)
                .WithWarmupCount(4)
                .WithIterationCount(12)
                .WithIterationTime(TimeInterval.FromMilliseconds(100))
        );
        AddColumnProvider(DefaultColumnProviders.Instance);
        AddColumn(StatisticColumn.Median);
        AddDiagnoser(MemoryDiagnoser.Default);
        AddLogger(ConsoleLogger.Default);
    }
}

using BenchmarkDotNet.Running;
using FixtureGen.Bench;

if (args is ["layout", ..])
{
    LayoutBench.Run(args[1..]);
    return;
}
if (args is ["library", ..])
{
    LibraryBench.Run(args[1..]);
    return;
}
if (args is ["judge", ..])
{
    JudgeBench.Run(args[1..]);
    return;
}
BenchmarkSwitcher.FromAssembly(typeof(Program).Assembly).Run(args);

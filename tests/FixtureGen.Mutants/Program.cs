using System.Collections.Concurrent;
using System.Globalization;
using FixtureGen.Mutants;
using Microsoft.CodeAnalysis.CSharp;

// The score of the judge's tests: COUNT faults drawn from the whole judge by SEED, or those of the files whose path holds PART.
// Usage: FixtureGen.Mutants [COUNT] [SEED] [PART]; the tests must be built. Survivors are listed last, to be looked at: one that
// changes nothing that can be seen is an equivalent and does not count.
int count = args.Length > 0 ? int.Parse(args[0], CultureInfo.InvariantCulture) : 300;
int seed = args.Length > 1 ? int.Parse(args[1], CultureInfo.InvariantCulture) : 1;
string part = args.Length > 2 ? args[2] : "";

string root = AppContext.BaseDirectory;
while (!File.Exists(Path.Combine(root, "FixtureGen.sln")))
    root = Path.GetDirectoryName(root) ?? throw new InvalidOperationException("run it from within the clone");
string folder = Path.Combine(root, "src", "FixtureGen.Verify");
string work = Path.Combine(root, "artifacts", "mutants");
Directory.CreateDirectory(work);

CSharpCompilation judge = JudgeSource.Compile(folder);
List<(Mutant Mutant, FaultPlace Place)> all = MutatedJudge.FindFaults(judge, folder);
(Mutant Mutant, FaultPlace Place)[] pool = [.. all.Where(f => f.Mutant.File.Contains(part, StringComparison.Ordinal))];
new Random(seed).Shuffle(pool);
List<Mutant> mutants = MutatedJudge.Write(
    judge,
    pool[..Math.Min(count, pool.Length)],
    Path.Combine(work, "FixtureGen.Verify.dll")
);
Console.Error.WriteLine($"{all.Count} places, {pool.Length} of them asked for, {mutants.Count} drawn that compile");

Trial trial = new(root, work);
ConcurrentDictionary<Mutant, Fate> fates = new();
Parallel.ForEach(
    mutants,
    new ParallelOptions { MaxDegreeOfParallelism = Environment.ProcessorCount },
    mutant =>
    {
        Fate fate = trial.Try(mutant.Id);
        fates[mutant] = fate;
        Console.Error.WriteLine($"{fates.Count} of {mutants.Count}: {fate} {mutant}");
    }
);
foreach (var kind in fates.GroupBy(f => f.Key.Kind).OrderBy(g => g.Key, StringComparer.Ordinal))
    Console.WriteLine($"{kind.Key, -12} {kind.Count(f => f.Value == Fate.Killed)} of {kind.Count()}");
Console.WriteLine($"score {fates.Count(f => f.Value == Fate.Killed)} of {fates.Count}");
foreach (var left in fates.Where(f => f.Value != Fate.Killed).OrderBy(f => f.Key.Id))
    Console.WriteLine($"{left.Value} {left.Key}");

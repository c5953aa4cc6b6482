using System.Text.RegularExpressions;
using FixtureGen.Shop.Jobs;
using FixtureGen.Shop.Reading;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Shop.Keys;

/// <summary>
/// Every key of every shop file and job does something: set to another plausible value it changes a program, the report, a
/// paper, the drawing or a finding, or is refused for what it means. Rows of an array of tables and files of one folder share
/// their keys: one row of one file is enough.
/// </summary>
[Trait("Speed", "Slow")]
public sealed partial class EveryKeyTest
{
    /// <summary>Jobs by what they cost; the first is tried first, the others where it has no use for a key.</summary>
    private static readonly string[] Jobs = ["label-clip", "tape-cradle", "meter-cradle"];

    private static readonly ShopFiles Files = DemoShop.Files.Remembered();

    private static readonly Dictionary<string, KeyBench> Benches = new(StringComparer.Ordinal);

    private static string Text(string job) => File.ReadAllText(Path.Combine(DemoShop.Root, "outlines", job + ".toml"));

    [Theory]
    [InlineData("plates")]
    [InlineData("blanks")]
    [InlineData("tools")]
    [InlineData("materials")]
    [InlineData("magnets")]
    [InlineData("gaskets")]
    [InlineData("fasteners")]
    [InlineData("controls")]
    public void Every_key_of_the_shop_files_shows(string kind)
    {
        List<(string Path, Func<IEnumerable<KeyEffect>> Tries)> keys = [];
        foreach ((string file, KeyPlace key, TomlTable tree) in Places(kind))
        {
            keys.Add((key.Path, () => TryShop(kind, file, key, tree)));
        }
        Assert.True(keys.Count > 5, $"{keys.Count} keys of {kind}");
        AssertAlive(keys);
    }

    [Fact]
    public void Every_key_of_the_jobs_shows()
    {
        List<(string Path, Func<IEnumerable<KeyEffect>> Tries)> keys = [];
        foreach (string job in Jobs.Concat(DemoPrograms.Names().Except(Jobs)))
        {
            TomlTable tree = KeyText.Parse(Text(job), job);
            foreach (KeyPlace key in KeyText.Keys(tree))
            {
                keys.Add((key.Path, () => TryJob(job, KeyText.Write(tree, null, ""), key, tree)));
            }
        }
        AssertAlive(keys);
    }

    /// <summary>What 'new' writes as comments, table by table, into a job that leaves it out.</summary>
    [Fact]
    public void Every_key_that_a_job_may_leave_out_shows()
    {
        List<(string Path, Func<IEnumerable<KeyEffect>> Tries)> keys = [];
        HashSet<string> stated =
        [
            .. DemoPrograms.Names().SelectMany(n => KeyText.Keys(KeyText.Parse(Text(n), n))).Select(k => k.Path),
        ];
        foreach (string job in Jobs)
        {
            foreach (string whole in Completed(Text(job)))
            {
                TomlTable tree = KeyText.Parse(whole, job);
                foreach (KeyPlace key in KeyText.Keys(tree).Where(k => !stated.Contains(k.Path)))
                {
                    keys.Add((key.Path, () => TryJob(job, KeyText.Write(tree, null, ""), key, tree)));
                }
            }
        }
        Assert.True(keys.Count > 100, $"{keys.Count} keys");
        AssertAlive(keys);
    }

    private static void AssertAlive(List<(string Path, Func<IEnumerable<KeyEffect>> Tries)> keys)
    {
        List<string> dead = [];
        foreach (IGrouping<string, (string Path, Func<IEnumerable<KeyEffect>> Tries)> key in keys.GroupBy(k => k.Path))
        {
            KeyEffect[] seen = [.. Until(key.SelectMany(k => k.Tries()))];
            if (!seen.Contains(KeyEffect.Shown))
            {
                dead.Add($"{key.Key} ({seen.Count(s => s == KeyEffect.None)} values of {seen.Length} were tried)");
            }
        }
        Assert.True(dead.Count == 0, "These keys change nothing:\n" + string.Join('\n', dead));
    }

    /// <summary>As far as the first that shows.</summary>
    private static IEnumerable<KeyEffect> Until(IEnumerable<KeyEffect> tries)
    {
        foreach (KeyEffect effect in tries)
        {
            yield return effect;
            if (effect == KeyEffect.Shown)
            {
                yield break;
            }
        }
    }

    private static IEnumerable<(string File, KeyPlace Key, TomlTable Tree)> Places(string kind)
    {
        string job = Text(Jobs[0]);
        foreach (
            string file in Files
                .List(kind)
                .OrderByDescending(n => job.Contains($"\"{n}\"", StringComparison.Ordinal))
                .ThenBy(n => n, StringComparer.Ordinal)
        )
        {
            TomlTable tree = KeyText.Parse(Files.Find(kind, file)!.Value.Text, file);
            foreach (KeyPlace key in KeyText.Keys(tree))
            {
                yield return (file, key, tree);
            }
        }
    }

    private static IEnumerable<KeyEffect> TryShop(string kind, string file, KeyPlace key, TomlTable tree)
    {
        foreach (string job in Jobs)
        {
            KeyBench bench = Bench(job, Named(Text(job), kind, file), file);
            foreach (string literal in KeyTries.For(kind, key))
            {
                string changed = KeyText.Write(tree, key.Value, literal);
                ShopFiles shop = Files with
                {
                    Find = (k, n) =>
                        k == kind && n == file ? ($"templates/{kind}/{file}.toml", changed) : Files.Find(k, n),
                };
                yield return bench.Try(key.Key, bench.JobText, shop, kind == "controls" && key.Path != "units");
            }
        }
    }

    private static IEnumerable<KeyEffect> TryJob(string job, string text, KeyPlace key, TomlTable tree)
    {
        KeyBench bench = Bench(job, text, job);
        foreach (string literal in KeyTries.For("jobs", key))
        {
            yield return bench.Try(key.Key, KeyText.Write(tree, key.Value, literal), Files, control: false);
        }
    }

    private static KeyBench Bench(string job, string text, string file)
    {
        if (!Benches.TryGetValue(text, out KeyBench? bench))
        {
            bench = new KeyBench(job, text, Files);
            Benches[text] = bench;
        }
        Assert.True(bench.Job == job, file);
        return bench;
    }

    /// <summary>The job with that file in place of its own of that kind.</summary>
    private static string Named(string job, string kind, string file)
    {
        string key = kind switch
        {
            "plates" => "plate",
            "blanks" => "blank",
            "tools" => "tools",
            "materials" => "shell",
            "magnets" => "magnet",
            "gaskets" => "gasket",
            "fasteners" => file.StartsWith("pin", StringComparison.Ordinal) ? "pin" : "bolt",
            _ => "control",
        };
        return TomlLines.Set(job, "shop", key, $"\"{file}\"");
    }

    /// <summary>The job with one table more, all of its keys as 'new' writes them; once for every table.</summary>
    private static IEnumerable<string> Completed(string job)
    {
        TomlTable stated = KeyText.Parse(job, "job");
        HashSet<string> there = [.. KeyText.Keys(stated).Select(k => k.Path)];
        DrawingFacts facts = new(
            "job",
            FixtureGen.Model.LengthUnit.Millimetre,
            100,
            100,
            HasForm: false,
            HasMagnets: false
        );
        string table = "";
        string more = job;
        foreach (
            string line in JobTemplate.NewJob(facts, Files).Split('\n').Select(l => l.TrimStart('#', ' ')).Append("[]")
        )
        {
            if (Head().Match(line) is { Success: true } head)
            {
                if (more != job)
                {
                    yield return more;
                }
                (table, more) = (head.Groups[2].Value, job);
                if (table == "hold")
                {
                    // A reason is wanted only where a hold is low.
                    more = TomlLines.Set(more, "limits", "vacuum_factor", "50");
                }
                if (head.Groups[1].Value == "[[" && !stated.Entries.Exists(e => e.Key == table))
                {
                    more += $"\n[[{table}]]";
                }
            }
            else if (Pair().Match(line) is { Success: true } pair)
            {
                string key = pair.Groups[1].Value;
                if (!there.Contains(table.Length == 0 ? key : table + "." + key))
                {
                    more = TomlLines.Set(more, table, key, pair.Groups[2].Value.Trim());
                }
            }
        }
    }

    [GeneratedRegex(@"^(\[+)([a-z_.]*)\]+")]
    private static partial Regex Head();

    [GeneratedRegex(@"^([a-z0-9_]+) = ([^#]+)")]
    private static partial Regex Pair();
}

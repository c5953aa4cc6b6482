using System.Collections.Immutable;
using FixtureGen.App.Files;
using FixtureGen.Model;
using FixtureGen.Shop.Jobs;
using FixtureGen.Shop.Reading;

namespace FixtureGen.App.Page.ShopDesk;

/// <summary>
/// Which jobs a shop file decides: those that name it, and those whose reader took it for what they leave open. A job that cannot be
/// read counts by the names that it states.
/// </summary>
internal sealed class ShopUse
{
    private readonly Dictionary<string, List<UsingJob>> _jobs = new(StringComparer.Ordinal);

    /// <summary>Reads every job once.</summary>
    /// <param name="jobs">Paths.</param>
    /// <param name="name">A job's name in the list.</param>
    /// <param name="library">Whose shop it is.</param>
    public ShopUse(ImmutableArray<string> jobs, Func<string, string> name, LibraryFolder library)
    {
        ShopFiles shop = library.Shop(null).Remembered();
        foreach (string job in jobs)
        {
            (HashSet<string> named, IEnumerable<string> read) = Files(job, library, shop);
            foreach (string file in named.Union(read, StringComparer.Ordinal))
            {
                if (!_jobs.TryGetValue(file, out List<UsingJob>? of))
                {
                    _jobs[file] = of = [];
                }
                of.Add(new UsingJob(name(job), Path.GetFileNameWithoutExtension(job), named.Contains(file)));
            }
        }
    }

    /// <summary>The jobs of one file, in the order of the list.</summary>
    public UsingJob[] Jobs(string kind, string name) => [.. _jobs.GetValueOrDefault(Shown(kind, name)) ?? []];

    /// <summary>The path of a shop file as jobs and findings name it.</summary>
    public static string Shown(string kind, string name) => $"templates/{kind}/{name}.toml";

    /// <summary>The shop files that a job names, and those that its reader went through.</summary>
    private static (HashSet<string> Named, IEnumerable<string> Read) Files(
        string job,
        LibraryFolder library,
        ShopFiles shop
    )
    {
        string text;
        try
        {
            text = SourceText.Read(job);
        }
        catch (UnreadableFileException)
        {
            return ([], []);
        }
        string file = library.Relative(Path.GetFullPath(job));
        Job? read = JobReader.Read(text, file, shop).Value;
        HashSet<string> named = new(
            JobKeys.ShopFilesNamed(text, file).Select(n => Shown(n.Kind, n.Name)),
            StringComparer.Ordinal
        );
        if (read is not null)
        {
            named.Add(Shown("materials", read.Blank.Material));
        }
        return (named, read?.Sources ?? []);
    }
}

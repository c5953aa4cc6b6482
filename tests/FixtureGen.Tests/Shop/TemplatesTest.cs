using FixtureGen.Model;
using FixtureGen.Shop.Files;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Shop;

public sealed class TemplatesTest
{
    public static TheoryData<string, string> AllFiles()
    {
        TheoryData<string, string> data = [];
        foreach (
            string path in Directory
                .EnumerateFiles(Path.Combine(DemoShop.Root, "templates"), "*.toml", SearchOption.AllDirectories)
                .Order(StringComparer.Ordinal)
        )
        {
            data.Add(Path.GetFileName(Path.GetDirectoryName(path)!), Path.GetFileNameWithoutExtension(path));
        }
        return data;
    }

    [Theory]
    [MemberData(nameof(AllFiles))]
    public void Every_shop_file_is_read_without_a_finding(string kind, string name)
    {
        (string path, string text) = DemoShop.Files.Find(kind, name)!.Value;
        IEnumerable<Finding> findings = kind switch
        {
            "plates" => PlateReader.Read(text, path, name).Findings,
            "blanks" => BlankReader.Read(text, path, name).Findings,
            "tools" => ToolReader.Read(text, path, name).Findings,
            "materials" => MaterialReader.Read(text, path, name).Findings,
            "magnets" => MagnetReader.Read(text, path, name).Findings,
            "gaskets" => GasketReader.Read(text, path, name).Findings,
            "fasteners" when name.StartsWith("pin", StringComparison.Ordinal) => FastenerReader
                .ReadPin(text, path, name)
                .Findings,
            "fasteners" => FastenerReader.ReadScrew(text, path, name).Findings,
            "controls" => ControlReader.Read(text, path, name).Findings,
            _ => throw new InvalidOperationException($"templates/{kind} is no kind of shop file"),
        };
        Assert.Empty(findings);
    }

    [Fact]
    public void A_job_of_shop_names_only_has_the_handbook_defaults()
    {
        Job job = DemoShop.Job(DemoShop.PlainJob());

        Assert.Equal(215.9, job.Blank.Width, 9);
        Assert.Equal(18.5, job.Rules.FixtureHeight, 9);
        Assert.Equal(19.05, job.BlankThickness, 9);
        Assert.InRange(job.Rules.Land, 3.2, 4.0);
        Assert.Equal(
            ["al6061-10", "al6061-8-5", "hdpe-10", "hdpe-8-5-thick"],
            job.OtherBlanks.Select(b => b.Name).Where(n => !n.StartsWith("acetal", StringComparison.Ordinal))
        );
        Assert.Contains("templates/plates/master.toml", job.Sources);
        Assert.Null(job.Locator);
    }
}

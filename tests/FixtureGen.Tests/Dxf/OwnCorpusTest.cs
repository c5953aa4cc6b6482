using FixtureGen.Drawing;
using FixtureGen.Drawing.Chaining;
using FixtureGen.Drawing.Roles;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Dxf;

/// <summary>Small drawings in tests/corpus: each in good/ makes a part, each in broken/ is refused with the finding that is its name.</summary>
public sealed class OwnCorpusTest
{
    private static readonly Job Job = DemoShop.Job(DemoShop.PlainJob());

    public static TheoryData<string> Good => Names("good");

    public static TheoryData<string> Broken => Names("broken");

    [Theory]
    [MemberData(nameof(Good))]
    public void Good_drawing_makes_a_part(string name)
    {
        (Stage<Part>? part, Finding[] findings) = Make("good", name);
        Assert.True(part?.Ok, string.Join('\n', findings.AsEnumerable()));
    }

    [Theory]
    [MemberData(nameof(Broken))]
    public void Broken_drawing_is_refused_with_its_name(string name)
    {
        (Stage<Part>? part, Finding[] findings) = Make("broken", name);
        Assert.False(findings.All(f => f.Severity != Severity.Error) && part?.Value is not null);
        Finding finding = findings.First(f => f.Code == name && f.Severity == Severity.Error);
        Assert.NotEmpty(finding.Message);
        Assert.NotEmpty(finding.Remedy);
    }

    private static (Stage<Part>? Part, Finding[] Findings) Make(string folder, string name)
    {
        string file = Path.Combine(DemoShop.Root, "tests", "corpus", folder, name + ".dxf");
        Stage<DrawingContent> read = DxfReader.Read(File.ReadAllBytes(file), name + ".dxf", null, Tolerances.House);
        Stage<Part>? part = read.Value is { } drawing ? PartBuilder.Build(drawing, Job) : null;
        return (part, [.. read.Findings, .. part?.Findings ?? []]);
    }

    private static TheoryData<string> Names(string folder) =>
        [
            .. Directory
                .EnumerateFiles(Path.Combine(DemoShop.Root, "tests", "corpus", folder), "*.dxf")
                .Select(f => Path.GetFileNameWithoutExtension(f))
                .Order(StringComparer.Ordinal),
        ];
}

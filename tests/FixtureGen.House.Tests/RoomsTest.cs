using System.Xml.Linq;
using Microsoft.CodeAnalysis.CSharp.Syntax;
using Xunit;

namespace FixtureGen.House.Tests;

/// <summary>The house is the one that DEVELOPERS.md draws: a room names only rooms that stand before it in the plan, so no ring can be.</summary>
public sealed class RoomsTest
{
    private static readonly Dictionary<string, int> Floor = HousePlan
        .Rooms.Select((r, i) => (r, i))
        .ToDictionary(r => r.r, r => r.i);

    [Fact]
    public void Every_room_stands_in_the_plan_and_every_room_of_the_plan_stands()
    {
        string[] built =
        [
            .. SourceHouse
                .Today.Trees.Select(t => SourceHouse.Room(SourceHouse.Place(t.FilePath)))
                .Distinct()
                .Order(StringComparer.Ordinal),
        ];
        Assert.Equal(HousePlan.Rooms.Order(StringComparer.Ordinal), built);
    }

    [Fact]
    [Trait("Speed", "Slow")]
    public void A_room_names_only_rooms_before_it()
    {
        string[] back =
        [
            .. SourceHouse
                .Today.Uses.Where(u => Floor[SourceHouse.Room(u.From)] < Floor[SourceHouse.Room(u.To)])
                .Select(u => $"{u.From} names {u.Name} of {u.To}"),
        ];
        Assert.Empty(back);
    }

    [Fact]
    [Trait("Speed", "Slow")]
    public void The_uses_are_really_read()
    {
        // one of each kind that the house is made of: a type, a static member, an extension, within and across projects
        Assert.Contains(SourceHouse.Today.Uses, u => u is { From: "FixtureGen/Pipeline.cs", Name: "Verifier" });
        Assert.Contains(SourceHouse.Today.Uses, u => u is { From: "FixtureGen.App/Program.cs", Name: "CommandTree" });
        Assert.Contains(SourceHouse.Today.Uses, u => u is { From: "FixtureGen/Design/Designer.cs", Name: "Boxes" });
        Assert.True(SourceHouse.Today.Uses.Count > 3000);
    }

    [Fact]
    public void A_project_references_what_the_plan_says()
    {
        foreach ((string project, string[] uses) in HousePlan.References)
        {
            string file = Path.Combine(SourceHouse.Src, project, project + ".csproj");
            string[] references =
            [
                .. XDocument
                    .Load(file)
                    .Descendants("ProjectReference")
                    .Select(e => Path.GetFileNameWithoutExtension(e.Attribute("Include")!.Value.Replace('\\', '/')))
                    .Order(StringComparer.Ordinal),
            ];
            Assert.Equal([.. uses.Order(StringComparer.Ordinal)], references);
        }
    }

    [Fact]
    public void A_namespace_is_its_folder()
    {
        string[] wrong =
        [
            .. SourceHouse
                .Today.Trees.Select(t =>
                    (
                        Place: SourceHouse.Place(t.FilePath),
                        Name: t.GetRoot()
                            .DescendantNodes()
                            .OfType<BaseNamespaceDeclarationSyntax>()
                            .Select(n => n.Name.ToString())
                            .FirstOrDefault()
                    )
                )
                .Where(t => t.Name != SourceHouse.Room(t.Place).Replace('/', '.') && !Travels(t.Place))
                .Select(t => $"{t.Place}: {t.Name}"),
        ];
        Assert.Empty(wrong);
    }

    [Fact]
    public void No_file_name_twice_in_a_project()
    {
        string[] twice =
        [
            .. SourceHouse
                .Today.Trees.Select(t => SourceHouse.Place(t.FilePath))
                .GroupBy(p => (SourceHouse.Project(p), Path.GetFileName(p)))
                .Where(g => g.Count() > 1)
                .Select(g => string.Join(" and ", g)),
        ];
        Assert.Empty(twice);
    }

    // The kernel's package carries the words of the plane in the model's namespace and its own whole surface in one.
    private static bool Travels(string place) =>
        SourceHouse.Project(place) is "FixtureGen.Plane" or "FixtureGen.Geometry";
}

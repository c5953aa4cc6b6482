using System.Globalization;
using System.Text.RegularExpressions;
using Xunit;

namespace FixtureGen.Tests.House;

/// <summary>
/// What counts as nothing stands in one place: lengths in Slack, the tolerances they are made from in Tolerances, figures
/// without a unit in Rounding. Any other small figure in the kernel's sources is an epsilon of its own.
/// </summary>
public sealed partial class OnePlaceTest
{
    private const double Least = 1e-16;
    private const double Most = 1.5e-3;

    private static readonly string[] Places = ["Slack.cs", "Tolerances.cs", "Rounding.cs"];

    /// <summary>File, figure, reason.</summary>
    private static readonly (string File, string Figure, string Why)[] Allowed =
    [
        ("ArcRecovery.cs", "1e-9", "sine of three points on a line, which have no circle"),
        ("ArcRecovery.cs", "1e-12", "radians of a turn added up"),
        ("Biarcs.cs", "1e-3", "part of the chord tolerance that a straight stretch may take"),
        ("Biarcs.cs", "1e-4", "first step, in spans, away from a cusp"),
        ("Biarcs.cs", "1e-9", "part of the curve's size that a tangent must have"),
        ("Biarcs.cs", "4e-4", "part of its chord that an arc bends by before it is a line"),
        ("BiarcTidy.cs", "1e-3", "part of the chord tolerance that joining may take"),
        ("SplineArcs.cs", "1e-12", "part of the knots' range that a span must have"),
        ("EllipseArcs.cs", "1e-9", "part of the half axes by which a circle's may differ; radians of a full sweep"),
    ];

    [Fact]
    public void No_file_has_a_small_figure_of_its_own()
    {
        List<string> strangers = [];
        HashSet<int> used = [];
        foreach (string file in Sources())
        {
            string name = Path.GetFileName(file);
            if (Places.Contains(name))
            {
                continue;
            }
            foreach (string figure in SmallFigures(File.ReadAllText(file)))
            {
                int known = Array.FindIndex(Allowed, a => a.File == name && a.Figure == figure);
                if (known < 0)
                {
                    strangers.Add(name + " " + figure);
                }
                used.Add(known);
            }
        }

        Assert.Empty(strangers);
        Assert.All(Enumerable.Range(0, Allowed.Length), i => Assert.Contains(i, used));
    }

    [Theory]
    [InlineData("if (x < 1e-7)", "1e-7")]
    [InlineData("private const double Near = 0.0005;", "0.0005")]
    [InlineData("x + 2.5E-9 * y", "2.5E-9")]
    public void Small_figures_are_seen(string code, string figure) =>
        Assert.Equal(figure, Assert.Single(SmallFigures(code)));

    [Theory]
    [InlineData("// within 1e-7 mm")]
    [InlineData("/// <summary>Within 1e-7 mm.</summary>")]
    [InlineData("x * 0.5 + 0.01")]
    [InlineData("slack.Near / 2")]
    public void Comments_and_other_figures_are_not(string code) => Assert.Empty(SmallFigures(code));

    private static IEnumerable<string> SmallFigures(string code) =>
        Comment()
            .Replace(code, "")
            .Split('\n')
            .SelectMany(static line => Figure().Matches(line))
            .Select(static m => m.Value)
            .Where(static v => double.Parse(v, CultureInfo.InvariantCulture) is > Least and < Most);

    private static IEnumerable<string> Sources()
    {
        DirectoryInfo at = new(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(at.FullName, "FixtureGen.sln")))
        {
            at = at.Parent!;
        }
        string kernel = Path.Combine(at.FullName, "src", "FixtureGen.Geometry");
        return Directory
            .EnumerateFiles(kernel, "*.cs", SearchOption.AllDirectories)
            .Where(static f => !f.Split(Path.DirectorySeparatorChar).Any(static p => p is "obj" or "bin"));
    }

    [GeneratedRegex(@"//.*")]
    private static partial Regex Comment();

    [GeneratedRegex(@"(?<![\w.])\d+(\.\d+)?([eE][-+]?\d+)?(?![\w.])")]
    private static partial Regex Figure();
}

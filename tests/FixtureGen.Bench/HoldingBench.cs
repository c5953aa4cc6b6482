using BenchmarkDotNet.Attributes;
using FixtureGen.Design;
using FixtureGen.Geometry;
using FixtureGen.Holding;
using FixtureGen.Model;
using FixtureGen.Shop.Jobs;
using FixtureGen.Shop.Reading;
using FixtureGen.Solve;

namespace FixtureGen.Bench;

/// <summary>
/// Holding of a plain 170 x 135 mm part, some 600 mm of trim at 1 mm steps: the whole answer with 6 magnets (at most 20 ms
/// warm), the answer again for moved magnets (the layout page's drag), and the best places for 6 (at most 2 s on two cores).
/// </summary>
[MemoryDiagnoser]
public class HoldingBench
{
    private Job _job = null!;
    private FixtureDesign _design = null!;
    private HoldingContext _context = null!;

    [GlobalSetup]
    public void Setup()
    {
        string root = Root();
        ShopFiles files = new(
            (kind, name) =>
            {
                string path = Path.Combine(root, "templates", kind, name + ".toml");
                return File.Exists(path) ? (path, File.ReadAllText(path)) : null;
            },
            _ => []
        );
        string text = File.ReadAllText(Path.Combine(root, "tests", "stated", "pruner-sheath.toml"));
        _job = JobReader.Read(text, "outlines/bench.toml", files).Value! with { MagnetCount = 6 };
        Part part = new(Contours.RoundedRectangle(new Box2(0, 0, 150, 125), 15), [], [], [], [], []);
        Placement placement = Placing.Place(part, _job, Tolerances.House).Value!;
        FixtureDesign begun = Designer.Begin(part, placement, _job, Tolerances.House).Value!;
        _design = begun with { Magnets = MagnetPlacement.Choose(begun, _job, Tolerances.House).Value };
        _context = HoldingAnalysis.Context(_design, _job, Tolerances.House).Value!;
    }

    [Benchmark]
    public HoldingResult WholeAnswer() => HoldJudgement.Evaluate(_design, _job).Value!;

    [Benchmark]
    public HoldingResult MovedMagnets() => _context.Evaluate(_design.Magnets);

    [Benchmark]
    public int BestPlacesForSix() => MagnetPlacement.Choose(_design, _job, Tolerances.House).Value.Length;

    private static string Root()
    {
        DirectoryInfo? folder = new(AppContext.BaseDirectory);
        while (folder is not null && !Directory.Exists(Path.Combine(folder.FullName, "templates")))
        {
            folder = folder.Parent;
        }
        return folder?.FullName ?? throw new InvalidOperationException("No templates folder above the bench.");
    }
}

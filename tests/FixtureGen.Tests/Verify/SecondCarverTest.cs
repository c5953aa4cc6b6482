using FixtureGen.Model;
using FixtureGen.Tests.Support;
using FixtureGen.Verify;
using FixtureGen.Verify.Tests.Damage;
using FixtureGen.Verify.Verdicts;
using NetTopologySuite.Geometries;
using NetTopologySuite.Geometries.Prepared;
using NetTopologySuite.Operation.Union;
using Xunit;
using Shape = NetTopologySuite.Geometries.Geometry;

namespace FixtureGen.Tests.Verify;

/// <summary>
/// The judge's height grid against a carver of another kind: the program read by the tests' own small reader, and for each height the
/// slice that is cut there, as the union of buffered ways (NetTopologySuite) of all tips that go below it.
/// </summary>
[Trait("Speed", "Slow")]
public sealed class SecondCarverTest
{
    private const double Cell = 0.2;
    private const int Slices = 8;

    /// <summary>Chords of the reader's arcs and of the buffers' round ends leave the circle by less than this, mm.</summary>
    private const double Chords = 0.01;

    public static TheoryData<string> Demos => ["dibber-sheath", "label-clip", "tape-cradle"];

    [Theory]
    [MemberData(nameof(Demos))]
    public void Slices_of_both_carvers_agree(string name)
    {
        DemoProgram demo = DemoPrograms.Of(name);
        ProgramText top = demo.Texts.Single(t => t.Setup == Setup.Top);
        VerifyResult result = Verifier.Judge(
            new VerifyRequest(HeldJobs.Nominal(demo.Job), demo.Design, [top], Limits.House with { Cell = Cell })
            {
                Drawing = demo.Drawing,
            }
        );
        List<Cut> cuts = [.. Cuts(PlainReader.Read(top.Text, demo.Job.Control)!, demo.Job)];
        Assert.True(cuts.Count > 100, $"{cuts.Count} cuts");
        BlockGrid grid = result.Block;
        Shape blank = GeometryFactory.Default.ToGeometry(
            new Envelope(grid.Box.MinX, grid.Box.MaxX, grid.Box.MinY, grid.Box.MaxY)
        );
        float[] row = new float[grid.Columns];
        double volume = 0;
        double counted = 0;
        for (int k = 0; k < Slices; k++)
        {
            double z = demo.Design.RawThickness * (k + 0.37) / Slices;
            Shape slice = OverlayUnion([.. cuts.Select(c => c.Slice(z)).OfType<Shape>()]).Intersection(blank);
            IPreparedGeometry sure = PreparedGeometryFactory.Prepare(slice.Buffer(-Chords - 1e-3));
            IPreparedGeometry may = PreparedGeometryFactory.Prepare(slice.Buffer(Chords + 1e-3));
            int cells = 0;
            for (int r = 0; r < grid.Rows; r++)
            {
                grid.Top(r, row);
                for (int c = 0; c < grid.Columns; c++)
                {
                    bool cut = row[c] < z;
                    cells += cut ? 1 : 0;
                    // every fifth cell of every fifth row is asked by itself
                    if (r % 5 == 0 && c % 5 == 0)
                    {
                        Point p = new(grid.Box.MinX + ((c + 0.5) * Cell), grid.Box.MinY + ((r + 0.5) * Cell));
                        Assert.False(cut && !may.Intersects(p), At(p, z) + " is cut in the grid alone");
                        Assert.False(!cut && sure.Contains(p), At(p, z) + " stands in the grid alone");
                    }
                }
            }
            double area = cells * Cell * Cell;
            double slack = (slice.Length * (Chords + (0.05 * Cell))) + (4 * Cell * Cell);
            Assert.True(
                Math.Abs(area - slice.Area) <= slack,
                FormattableString.Invariant(
                    $"Z {z:0.##}: {area:0.#} mm2 against {slice.Area:0.#}, {slack:0.##} allowed"
                )
            );
            volume += slice.Area;
            counted += area;
        }
        Assert.InRange(counted / volume, 0.998, 1.002);
    }

    private static string At(Point p, double z) => FormattableString.Invariant($"X{p.X:0.##} Y{p.Y:0.##} Z{z:0.###}");

    private static Shape OverlayUnion(IReadOnlyList<Shape> parts) =>
        parts.Count == 0 ? GeometryFactory.Default.CreatePolygon() : UnaryUnionOp.Union(parts);

    private static IEnumerable<Cut> Cuts(List<Deed> deeds, Job job)
    {
        Tool? tool = null;
        foreach (Deed deed in deeds)
        {
            if (deed.What.StartsWith("change ", StringComparison.Ordinal))
            {
                tool = job.Tools.Single(t => deed.What == FormattableString.Invariant($"change {t.Number}"));
            }
            if (deed.Path is { } path && tool is not null && path.All(p => p.All(double.IsFinite)))
            {
                yield return new Cut(tool, path);
            }
            Assert.False(deed.What.StartsWith("G8", StringComparison.Ordinal), "a cycle has no way of its own here");
        }
    }

    /// <summary>One motion of one tool; what its tip does below a height is cut there as wide as the tool is at that height.</summary>
    private sealed record Cut(Tool Tool, double[][] Path)
    {
        public Shape? Slice(double z)
        {
            List<Coordinate> below = [];
            double lowest = double.MaxValue;
            for (int i = 0; i < Path.Length; i++)
            {
                double[] b = Path[i];
                if (i > 0 && (Path[i - 1][2] < z) != (b[2] < z))
                {
                    double[] a = Path[i - 1];
                    double t = (z - a[2]) / (b[2] - a[2]);
                    below.Add(new Coordinate(a[0] + ((b[0] - a[0]) * t), a[1] + ((b[1] - a[1]) * t)));
                }
                if (b[2] < z)
                {
                    below.Add(new Coordinate(b[0], b[1]));
                    lowest = Math.Min(lowest, b[2]);
                }
            }
            if (below.Count == 0)
            {
                return null;
            }
            double radius = Radius(z - lowest);
            Shape way =
                below.Count == 1 || below.All(p => p.Distance(below[0]) < 1e-9)
                    ? new Point(below[0])
                    : new LineString([.. below]);
            return way.Buffer(radius, 24);
        }

        /// <summary>Cones are only cut straight down or level here.</summary>
        private double Radius(double height)
        {
            if (Tool.Kind == ToolKind.EndMill)
            {
                return Tool.Diameter / 2;
            }
            double slope = Math.Tan(Tool.TipAngleDeg * Math.PI / 360);
            return Math.Min(Tool.Diameter / 2, (Tool.TipDiameter / 2) + (height * slope));
        }
    }
}

using System.Collections.Immutable;
using System.Globalization;
using System.Text.RegularExpressions;
using FixtureGen.Design.Trim;
using FixtureGen.Geometry;
using FixtureGen.Holding;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Design;

/// <summary>Round cutouts under the trim cutter of 3.175 mm that the rack's drills of 3 and 3.175 mm make.</summary>
public sealed partial class DrilledHolesTest
{
    private static readonly Part Drawn = MadePart.Plate(Hole(20, 20, 3), Hole(100, 70, 3.15), Hole(60, 40, 12));

    private static readonly Lazy<(FixtureDesign Design, ImmutableArray<ProgramText> Programs)> Made = new(() =>
        MadePart.Make(Drawn, MadePart.Job)
    );

    private static Contour Hole(double x, double y, double diameter) => Contours.Circle(new Point2(x, y), diameter / 2);

    private static ProgramText Trim => Made.Value.Programs.Single(p => p.Setup == Setup.Trim);

    [Fact]
    public void Unsaid_they_are_drilled_and_the_judge_agrees()
    {
        (FixtureDesign design, ImmutableArray<ProgramText> programs) = Made.Value;
        Assert.Equal(
            [("cutout 1", "drill-3mm"), ("cutout 2", "drill-1-8")],
            design.DrilledHoles.Select(h => (h.Name, h.Tool.Name))
        );
        Assert.Equal(["cutout 3", "outline"], design.TrimCuts.Select(c => c.Name));
        int drilled = Trim.Text.IndexOf("(DRILLED HOLES", StringComparison.Ordinal);
        int cut = Trim.Text.IndexOf("(CUTOUTS", StringComparison.Ordinal);
        Assert.True(0 < drilled && drilled < cut && cut < Trim.Text.IndexOf("(OUTLINE", StringComparison.Ordinal));
        Assert.Empty(MadePart.Errors(Drawn, MadePart.Job, design, programs));
    }

    /// <summary>
    /// Handbook 16.1: the point of a 118 degree drill is 0.3004 of its diameter long. Its corners end 0.5 mm below the shell, and the
    /// block gives way 1.5 mm below its point, half a millimetre wider than the hole all round.
    /// </summary>
    [Fact]
    public void The_block_gives_way_to_the_point()
    {
        FixtureDesign design = Made.Value.Design;
        DrilledHole hole = design.DrilledHoles[0];
        Assert.Equal(design.FixtureHeight - 0.5 - (0.3004 * 3), hole.FloorZ, 3);
        Removal relief = design.Removals.Single(r => r.Feature == "relief of cutout 1");
        Assert.Equal(hole.FloorZ - MadePart.Job.Rules.ReliefFloorBelowTip, relief.FloorZ, 9);
        Assert.Equal(Math.PI * 4, Measure.Area(relief.Area), 6);
    }

    /// <summary>Speed and feed of the chart: 225 ft/min at the corner, 0.003 in a turn up to an eighth of an inch, in whole tens.</summary>
    [Fact]
    public void They_run_by_the_shells_drilling_chart()
    {
        Match word = Feed().Match(Trim.Text[Trim.Text.IndexOf("(DRILLED HOLES - T23", StringComparison.Ordinal)..]);
        double rpm = double.Parse(word.Groups["rpm"].Value, CultureInfo.InvariantCulture);
        double feed = double.Parse(word.Groups["feed"].Value, CultureInfo.InvariantCulture);
        Assert.InRange(rpm, (225 * 12 / (Math.PI * 3 / 25.4)) - 10, 225 * 12 / (Math.PI * 3 / 25.4));
        Assert.InRange(feed / rpm, 0.00292, 0.003);
    }

    /// <summary>The thrust of two lips, specific force times dull factor times feed a lip times half the diameter, up as it breaks through.</summary>
    [Fact]
    public void Their_thrust_is_held()
    {
        Job job = MadePart.Job;
        Job heavy = job with
        {
            ShellMaterial = job.ShellMaterial with
            {
                Drilling = job.ShellMaterial.Drilling! with
                {
                    Feeds =
                    [
                        .. job.ShellMaterial.Drilling.Feeds.Select(f =>
                            f with
                            {
                                MinMm = 40 * f.MinMm,
                                MaxMm = 40 * f.MaxMm,
                            }
                        ),
                    ],
                },
            },
        };
        double Factor(Job at) =>
            HoldingAnalysis
                .Context(Made.Value.Design, at, Tolerances.House)
                .Value!.Evaluate(Made.Value.Design.Magnets)
                .VacuumOnly.Factor;
        Assert.True(Factor(heavy) < 0.5 * Factor(job), FormattableString.Invariant($"{Factor(heavy)} {Factor(job)}"));
    }

    [Theory]
    [InlineData(SmallHoles.Unsaid, 2.5, "cutout-smaller-than-cutter", "0.675 mm less")]
    [InlineData(
        SmallHoles.Drill,
        2.5,
        "small-hole-no-drill",
        "0.5 mm off the nearest drill of the rack, drill-3mm; 0.1 mm may be"
    )]
    [InlineData(SmallHoles.Drill, 2.9, "", "")]
    [InlineData(SmallHoles.Drill, 2.89, "small-hole-no-drill", "0.11 mm off")]
    public void Farther_off_than_a_tenth_no_drill_makes_them(SmallHoles said, double diameter, string code, string says)
    {
        Finding[] errors = Errors(MadePart.Plate(Hole(20, 20, diameter)), MadePart.Job with { SmallHoles = said });
        if (code.Length == 0)
        {
            Assert.Empty(errors);
            return;
        }
        Finding error = Assert.Single(errors);
        Assert.Equal(code, error.Code);
        Assert.Contains(says, error.Message, StringComparison.Ordinal);
        Assert.Contains("\"second-cutter\"", error.Remedy, StringComparison.Ordinal);
        Assert.Contains(
            FormattableString.Invariant($"ut a drill of {diameter:0.##} mm in the rack"),
            error.Remedy,
            StringComparison.Ordinal
        );
    }

    /// <summary>The remedy does: with such a drill in the rack the hole is drilled.</summary>
    [Fact]
    public void A_drill_put_in_the_rack_makes_it()
    {
        Tool two = MadePart.Job.Tools.Single(t => t.Name == "drill-3mm") with
        {
            Name = "drill-2-5mm",
            Number = 31,
            Diameter = 2.5,
        };
        Job job = MadePart.Job with { Tools = [.. MadePart.Job.Tools, two] };
        Part part = MadePart.Plate(Hole(20, 20, 2.5));
        Assert.Empty(Errors(part, job));
        (FixtureDesign design, ImmutableArray<ProgramText> programs) = MadePart.Make(part, job);
        Assert.Equal(two, Assert.Single(design.DrilledHoles).Tool);
        Assert.Empty(MadePart.Errors(part, job, design, programs));
    }

    [Fact]
    public void What_is_not_round_and_a_shell_without_a_chart_are_told_so()
    {
        Job job = MadePart.Job with { SmallHoles = SmallHoles.Drill };
        Part slot = MadePart.Plate(Contours.RoundedRectangle(new Box2(50, 70, 62, 73), 1.5));
        Assert.Contains("is no round hole", Assert.Single(Errors(slot, job)).Message, StringComparison.Ordinal);
        Job bare = job with { ShellMaterial = job.ShellMaterial with { Drilling = null } };
        Finding error = Assert.Single(Errors(MadePart.Plate(Hole(20, 20, 3)), bare));
        Assert.Contains("has no drilling chart", error.Message, StringComparison.Ordinal);
    }

    public static TheoryData<string, string> Spoiled =>
        new()
        {
            { "undrilled", "edge-left" },
            { "deeper", "trim-too-deep" },
            { "shallower", "edge-left" },
            { "a hair too shallow", "corner" },
            { "beside", "hole-off-place" },
            { "other drill", "trim-tool" },
            { "last", "trim-order" },
        };

    [Theory]
    [MemberData(nameof(Spoiled))]
    public void A_program_that_drills_otherwise_is_refused(string how, string code)
    {
        string text = Spoil(Trim.Text, how);
        Assert.NotEqual(Trim.Text, text);
        string[] errors = MadePart.Errors(Drawn, MadePart.Job, Made.Value.Design, [Trim with { Text = text }]);
        Assert.Contains(errors, e => e.StartsWith(code + " ", StringComparison.Ordinal));
    }

    public static TheoryData<string, string> SpoiledDesigns =>
        new()
        {
            { "larger drill", "larger than drawn" },
            { "moved", "design-off-drawing" },
            { "forgotten", "feature-missing" },
            { "twice", "feature-unasked" },
            { "shallow", "mm below the shell" },
            { "shallow relief", "floor-off" },
            { "narrow relief", "wall-off" },
            { "unasked", "the job wants it otherwise" },
        };

    /// <summary>Design and program agree in each of these: only the drawing, the rack and the job can tell.</summary>
    [Theory]
    [MemberData(nameof(SpoiledDesigns))]
    public void A_design_that_drills_otherwise_is_refused(string how, string says)
    {
        FixtureDesign design = Made.Value.Design;
        DrilledHole hole = design.DrilledHoles[0];
        FixtureDesign With(DrilledHole other) =>
            design with
            {
                DrilledHoles = design.DrilledHoles.Replace(hole, other),
            };
        Tool large = MadePart.Job.Tools.Single(t => t.Name == "drill-1-8");
        Point2 beside = hole.At + new Point2(0.3, 0);
        FixtureDesign spoiled = how switch
        {
            "larger drill" => With(
                hole with
                {
                    Tool = large,
                    Sweep = Region.From(Contours.Circle(hole.At, large.Radius)),
                }
            ),
            "moved" => With(hole with { At = beside, Sweep = Region.From(Contours.Circle(beside, hole.Tool.Radius)) }),
            "forgotten" => design with { DrilledHoles = design.DrilledHoles.Remove(hole) },
            "twice" => design with { DrilledHoles = design.DrilledHoles.Add(hole with { Name = "again" }) },
            "shallow" => With(hole with { FloorZ = hole.FloorZ + 0.4 }),
            "shallow relief" => Relieved(design, r => r with { FloorZ = r.FloorZ + 1 }),
            "narrow relief" => Relieved(design, r => r with { Area = [Region.From(Contours.Circle(hole.At, 1.6))] }),
            _ => design,
        };
        Job job = MadePart.Job with { SmallHoles = how == "unasked" ? SmallHoles.Leave : SmallHoles.Unsaid };
        string[] errors = MadePart.Errors(Drawn, job, spoiled, MadePart.Programs(spoiled, MadePart.Job));
        Assert.Contains(errors, e => e.Contains(says, StringComparison.Ordinal));
    }

    private static FixtureDesign Relieved(FixtureDesign design, Func<Removal, Removal> change) =>
        design with
        {
            Features =
            [
                .. design.Features.Select(f =>
                    f is PocketFeature { Name: "relief of cutout 1" } pocket
                        ? pocket with
                        {
                            Removals = [change(pocket.Removals[0])],
                            Area = change(pocket.Removals[0]).Area,
                            FloorZ = change(pocket.Removals[0]).FloorZ,
                        }
                        : f
                ),
            ],
        };

    private static string Spoil(string text, string how)
    {
        int from = text.IndexOf("(DRILLED HOLES - T23", StringComparison.Ordinal);
        Match stroke = Stroke().Match(text, from);
        double z = double.Parse(stroke.Groups["z"].Value, CultureInfo.InvariantCulture);
        string Deep(double to) =>
            string.Concat(
                text.AsSpan(0, stroke.Groups["z"].Index),
                to.ToString("0.#####", CultureInfo.InvariantCulture),
                text.AsSpan(stroke.Groups["z"].Index + stroke.Groups["z"].Length)
            );
        return how switch
        {
            "undrilled" => text.Remove(stroke.Index, stroke.Length),
            "deeper" => Deep(z - 0.02),
            "shallower" => Deep(z + 0.03),
            "a hair too shallow" => Deep(z + (0.47 / 25.4)),
            "beside" => Place()
                .Replace(
                    text,
                    m =>
                        FormattableString.Invariant(
                            $"X{double.Parse(m.Groups["x"].Value, CultureInfo.InvariantCulture) + 0.01:0.#####}"
                        ),
                    1,
                    from
                ),
            "other drill" => text.Replace("T23 M6", "T22 M6", StringComparison.Ordinal)
                .Replace("H20", "H19", StringComparison.Ordinal),
            _ => Last(text, from),
        };
    }

    /// <summary>The stroke once more before the program ends, in the outline's own place of the text.</summary>
    private static string Last(string text, int from)
    {
        int next = text.IndexOf("(DRILLED HOLES - T22", StringComparison.Ordinal);
        string drilling =
            next > from ? text[from..next] : text[from..text.IndexOf("(CUTOUTS", StringComparison.Ordinal)];
        int end = text.LastIndexOf("M5", StringComparison.Ordinal);
        return text.Insert(text.LastIndexOf('\n', end) + 1, drilling);
    }

    private static Finding[] Errors(Part part, Job job) =>
        [
            .. TrimPlanner
                .Plan(part, job, new Kernel(Tolerances.House))
                .Findings.Where(f => f.Severity == Severity.Error),
        ];

    [GeneratedRegex(@"S(?<rpm>\d+) M3[\s\S]*?F(?<feed>[\d.]+)")]
    private static partial Regex Feed();

    [GeneratedRegex(@"G1 Z(?<z>-?[\d.]+) F[\d.]+\r?\n")]
    private static partial Regex Stroke();

    [GeneratedRegex(@"X(?<x>[\d.]+)")]
    private static partial Regex Place();
}

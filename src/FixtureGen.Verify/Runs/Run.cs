using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Verify.Carving;
using FixtureGen.Verify.Reading;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Runs;

/// <summary>
/// One program under judgement: what was read, the block (or shell) it cuts, the cutters by number. Tallies[i] is what event i
/// took and is filled by the carving.
/// </summary>
internal sealed record Run(
    Job Job,
    FixtureDesign Design,
    Limits Limits,
    ProgramText Program,
    ProgramTrace Trace,
    FindingLog Log,
    BlockGrid Grid,
    Tally[] Tallies
)
{
    public Setup Setup => Program.Setup;

    /// <summary>A trim of a shell that magnets alone hold.</summary>
    public bool ByMagnets => Setup == Setup.Trim && Job.HoldBy == HoldBy.Magnets;

    public ImmutableSortedDictionary<int, Cutter> Cutters { get; } =
        Job
            .Tools.Append(Job.TrimTool)
            .DistinctBy(t => t.Number)
            .ToImmutableSortedDictionary(t => t.Number, Cutter.From);

    private MotionIndex? _index;

    /// <summary>The motions by place; made when it is first asked for.</summary>
    public MotionIndex Index => _index ??= new MotionIndex(this);

    /// <summary>The height above which there is nothing to hit.</summary>
    public double StockTop =>
        Setup == Setup.Trim
            ? Math.Max(Design.FixtureHeight + Job.Shell.ThicknessMax, Design.FixtureHeight + Job.Shell.Thickness)
            : Design.RawThickness;

    /// <summary>The finished face that an engraver works from, in the setup's frame, mm.</summary>
    public double Face =>
        Setup switch
        {
            Setup.Trim => Design.FixtureHeight + Job.Shell.Thickness,
            Setup.Underside => Design.RawThickness,
            Setup.Top => Design.FixtureHeight,
        };

    public Material Material => Setup == Setup.Trim ? Job.ShellMaterial : Job.BlockMaterial;

    /// <summary>The blank in this setup's frame.</summary>
    public Box2 Blank => AllowedShape.BlockBox(Design, Setup);

    /// <summary>
    /// The deepest a tool may cut at once in this material: the tool's own limit, its flutes, the material's ratio of its diameter,
    /// mm. A job may state fewer passes through its shell: what holds it is judged apart, by the program's own depths.
    /// </summary>
    public double StepDown(Tool tool)
    {
        if (tool.Kind == ToolKind.Drill)
        {
            return tool.FluteLength;
        }
        double wanted = Material.StepDownRatio * tool.Diameter;
        if (Setup == Setup.Trim && Job.TrimPasses is { } passes)
        {
            wanted = Math.Max(wanted, Job.Shell.ThicknessMax / passes);
        }
        double step = Math.Min(wanted, tool.FluteLength);
        return tool.MaxStepDown > 0 ? Math.Min(step, tool.MaxStepDown) : step;
    }

    /// <summary>An engraver scratching the shell's face; judged by its strokes, not by carving.</summary>
    public bool IsMark(Motion motion, Cutter cutter) =>
        Setup == Setup.Trim && cutter.Tool.Kind == ToolKind.Engraver && Low(motion) > Design.FixtureHeight;

    public Cutter? CutterOf(Motion motion) => Cutters.GetValueOrDefault(motion.Tool);

    /// <summary>All motions with their place among the events.</summary>
    public IEnumerable<(int Index, ProgramEvent Event, Motion Motion)> Motions()
    {
        for (int i = 0; i < Trace.Events.Length; i++)
        {
            ProgramEvent e = Trace.Events[i];
            if (e.Kind == EventKind.Motion)
            {
                yield return (i, e, e.Motion);
            }
        }
    }

    public static bool IsFeed(Motion motion) => motion.Kind != MotionKind.Rapid;

    public static double Low(Motion motion) => Math.Min(motion.From.Z, motion.To.Z);
}

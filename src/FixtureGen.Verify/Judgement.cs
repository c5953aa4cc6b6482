using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Verify.Carving;
using FixtureGen.Verify.Checks;
using FixtureGen.Verify.Corners;
using FixtureGen.Verify.Facts;
using FixtureGen.Verify.Finished;
using FixtureGen.Verify.Holding;
using FixtureGen.Verify.Reading;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Sequence;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify;

/// <summary>
/// One raw block, which it cuts, on its way through its setups. Setups without a program are taken from the design as cut
/// perfectly.
/// </summary>
internal sealed class Judgement(Job job, FixtureDesign design, Limits limits, Part? drawing, BlockGrid block)
{
    private readonly ImmutableArray<ProgramVerdict>.Builder _verdicts = ImmutableArray.CreateBuilder<ProgramVerdict>();
    private readonly AllowedShape _top = AllowedShape.OfBlock(design, Setup.Top);
    private readonly HashSet<Setup> _asked = [];
    private bool _undersideDone;
    private bool _topDone;
    private double _gougeDepth;
    private double _gougeSide;
    private double _leftover;

    public void Add(ProgramText program)
    {
        switch (program.Setup)
        {
            case Setup.Underside:
                JudgeUnderside(program);
                break;
            case Setup.Top:
                TakeUnderside();
                Cut(program, block, _top);
                _topDone = true;
                break;
            default:
                TakeUnderside();
                TakeTop();
                Trim(program);
                break;
        }
    }

    public VerifyResult Result()
    {
        TakeUnderside();
        TakeTop();
        bool ok =
            _verdicts.SelectMany(v => v.Findings).All(f => f.Severity != Severity.Error)
            && Math.Max(_gougeDepth, _gougeSide) <= limits.Gouge
            && _leftover <= limits.Leftover;
        return new VerifyResult(
            ok,
            limits.Cell,
            Math.Round(_gougeDepth, 6),
            Math.Round(_gougeSide, 6),
            Math.Round(_leftover, 6),
            _verdicts.ToImmutable(),
            block
        );
    }

    private void JudgeUnderside(ProgramText program)
    {
        AllowedShape shape = AllowedShape.OfBlock(design, Setup.Underside);
        using BlockGrid grid = UndersideGrid();
        Cut(program, grid, shape);
        block.BottomHeights = grid.TopHeights.Turned((float)design.RawThickness);
        _undersideDone = true;
    }

    private void TakeUnderside()
    {
        if (!_undersideDone && design.Removals.Any(r => r.Setup == Setup.Underside))
        {
            AllowedShape underside = AllowedShape.OfBlock(design, Setup.Underside);
            using BlockGrid raw = UndersideGrid();
            using Heights cut = TargetGrid.Make(underside, raw, true);
            block.BottomHeights = cut.Turned((float)design.RawThickness);
        }
        _undersideDone = true;
    }

    private void TakeTop()
    {
        if (!_topDone)
        {
            TargetGrid.Cut(_top, block);
        }
        _topDone = true;
    }

    /// <summary>The grid whose columns, counted from the other side, are the block's own.</summary>
    private BlockGrid UndersideGrid()
    {
        Box2 b = block.Box;
        double axis = design.Flip?.AxisX ?? b.Middle.X;
        double minX = (2 * axis) - (b.MinX + (block.Columns * block.Cell));
        Box2 turned = new(minX, b.MinY, minX + (block.Columns * block.Cell), b.MaxY);
        return new BlockGrid(turned, limits.Cell, 0, design.RawThickness);
    }

    private void Cut(ProgramText program, BlockGrid grid, AllowedShape shape)
    {
        double before = Volume(grid);
        Run run = Read(program, grid);
        if (WorkBound.Exceeds(run))
        {
            Write(run, 0, [], ProgramHold.None);
            return;
        }
        (CutScan cuts, _, SlotScan slots) = CarvePass.Carve(run);
        CommonChecks(run, slots);
        Facts(run);
        CornerCheck.Check(run);
        ProgramHold hold = BlockOnPlate.Judge(run, cuts);
        if (program.Setup == Setup.Top)
        {
            NestCheck.Check(run);
        }
        ObstacleCheck.Check(run, [.. ObstacleCheck.Bolts(job, design)], e => e.State.Bolted);
        ObstacleCheck.Check(run, [.. ObstacleCheck.Stops(job)], _ => true);
        Compare(run, shape, _ => false);
        new ClimbCheck(run, shape).Check();
        if (program.Setup == Setup.Underside)
        {
            using Heights finished = TargetGrid.Make(_top, block, true);
            using Heights below = finished.Turned((float)design.RawThickness);
            new FloorCheck(run, grid.TopHeights, below).Check();
            CornerFloor.Check(run, grid.TopHeights, below);
        }
        else
        {
            new FloorCheck(run, grid.TopHeights, grid.BottomHeights).Check();
            CornerFloor.Check(run, grid.TopHeights, grid.BottomHeights);
        }
        Write(run, before - Volume(grid), [], hold);
    }

    private void Trim(ProgramText program)
    {
        AllowedShape shape = AllowedShape.OfShell(design, job);
        using BlockGrid shell = new(
            block.Box,
            limits.Cell,
            design.FixtureHeight,
            design.FixtureHeight + job.Shell.Thickness
        );
        double before = Volume(shell);
        Run run = Read(program, shell);
        if (WorkBound.Exceeds(run))
        {
            Write(run, 0, [], ProgramHold.None);
            return;
        }
        (CutScan cuts, TrimStates states, SlotScan slots) = CarvePass.Carve(run);
        CommonChecks(run, slots);
        Facts(run);
        CornerCheck.Check(run);
        CornerTrim.Check(run, block);
        ProgramHold hold = ShellOnBlock.Judge(run, cuts, states);
        ObstacleCheck.Check(run, [.. ObstacleCheck.OfTrim(run), .. ObstacleCheck.Stops(job)], _ => true);
        new BlockContact(run, block, _top).Check();
        MarkCheck.Check(run);
        new TrimOrderCheck(run).Check();
        new SeamCheck(run).Check();
        new TabCheck(run).Check();
        DrilledHoleCheck.Check(run);
        Compare(run, shape, new Bridges(design).Contains);
        ImmutableArray<LooseScrap> loose = LooseCheck.Check(run);
        Write(run, before - Volume(shell), loose, hold);
    }

    /// <summary>What the shop's files say, asked with the first program that takes it for done: the design's own word for it is not enough.</summary>
    private void Facts(Run run)
    {
        if (drawing is not null)
        {
            bool first = _asked.Count == 0;
            Setup[] now = [.. Enum.GetValues<Setup>().Where(s => s <= run.Setup && _asked.Add(s))];
            ShopFacts.Check(run, drawing, first, [.. now]);
        }
    }

    private void Compare(Run run, AllowedShape shape, Func<Point2, bool> mayStand)
    {
        _gougeSide = Math.Max(_gougeSide, new WallCheck(run, shape).Check());
        BlockCompare compare = new(run, shape, mayStand);
        compare.Check();
        _gougeDepth = Math.Max(_gougeDepth, compare.GougeDepth);
        _gougeSide = Math.Max(_gougeSide, compare.GougeSide);
        _leftover = Math.Max(_leftover, compare.Leftover);
    }

    private Run Read(ProgramText program, BlockGrid grid)
    {
        FindingLog log = new(program.FileName);
        ProgramTrace trace = new ProgramReader(job, limits, log).Read(program.Text);
        return new Run(job, design, limits, program, trace, log, grid, new Tally[trace.Events.Length]);
    }

    private static void CommonChecks(Run run, SlotScan slots)
    {
        StateCheck.Check(run);
        PlaneCheck.Check(run);
        CutCheck.Check(run);
        new LoadCheck(run, slots).Check();
        DrillCheck.Check(run);
        PlaceCheck.Check(run);
        FeedCheck.Check(run);
        HeaderCheck.Check(run);
        Spoken spoken = new(run);
        new SentenceCheck(run, spoken).Check();
        ScrewCheck.Check(run, spoken);
        StartAndEnd.Check(run);
        TravelCheck.Check(run);
        RegularityCheck.Check(run);
        ToolWords.Check(run);
    }

    private void Write(Run run, double removed, ImmutableArray<LooseScrap> loose, ProgramHold hold)
    {
        (double minutes, ImmutableArray<ToolTime> tools) = Timing.Measure(run);
        double cut = 0;
        double rapid = 0;
        double air = 0;
        int arcs = 0;
        foreach ((int index, _, Motion motion) in run.Motions())
        {
            double dz = motion.To.Z - motion.From.Z;
            double flat = Piece.From(motion).Length;
            double length = Math.Sqrt((flat * flat) + (dz * dz));
            arcs += motion.Kind is MotionKind.ArcCcw or MotionKind.ArcCw ? 1 : 0;
            if (Run.IsFeed(motion))
            {
                cut += length;
                air += run.Tallies[index].Removed <= JudgeRules.NoMaterial ? length : 0;
            }
            else
            {
                rapid += length;
            }
        }
        _verdicts.Add(
            new ProgramVerdict
            {
                Setup = run.Setup,
                FileName = run.Program.FileName,
                ProgramNumber = run.Trace.ProgramNumber,
                Findings = [.. run.Log.Findings()],
                Lines = run.Trace.LineCount,
                Arcs = arcs,
                Minutes = minutes,
                CutMm = cut,
                RapidMm = rapid,
                RemovedMm3 = removed,
                AirCutShare = cut > 0 ? air / cut : 0,
                Tools = tools,
                Motions = [.. run.Motions().Select(m => m.Motion)],
                Loose = loose,
                Hold = hold,
            }
        );
    }

    private static double Volume(BlockGrid grid) =>
        HeightScan.Between(grid.BottomHeights, grid.TopHeights) * grid.Cell * grid.Cell;
}

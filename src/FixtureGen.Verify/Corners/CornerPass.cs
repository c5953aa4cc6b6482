using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Verify.Carving;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Corners;

/// <summary>What went wrong in a corner: of which kind, on which line, by how much.</summary>
internal enum CornerFault
{
    /// <summary>A rapid touches what stands.</summary>
    Rapid,

    /// <summary>A shank touches what stands.</summary>
    Shank,

    /// <summary>A holder touches what stands.</summary>
    Holder,

    /// <summary>A pass is deeper than its cutter bears.</summary>
    Deep,

    /// <summary>A rim of the raw face is left.</summary>
    Rim,
}

/// <summary>A fault at its place.</summary>
internal readonly record struct Faulty(CornerFault Fault, int Line, double Amount, Point2 At);

/// <summary>
/// One program on one block that is not as planned. The grid is coarse: what is asked is whether anything is touched that stands, and a
/// cell's middle stands or does not whatever its size; only what is thinner than a cell may be missed, and that the planned block's
/// own judgement sees.
/// </summary>
internal sealed class CornerPass(Run run, Corner corner)
{
    private const double Cell = 0.4;
    private readonly List<Faulty> _faults = [];

    public ImmutableArray<Faulty> Find()
    {
        Box2 b = run.Grid.Box;
        double off = corner.Off;
        Box2 box = new(b.MinX - off, b.MinY - off, b.MaxX + off, b.MaxY + off);
        double top = run.Grid.RawTopZ + corner.Thicker;
        using BlockGrid grid = new(box, Cell, run.Grid.RawBottomZ, top);
        Carver carver = new(grid);
        foreach ((_, Reading.ProgramEvent e, Motion motion) in run.Motions())
        {
            if (
                Run.Low(motion) - corner.Longer >= top
                || run.CutterOf(motion) is not { } cutter
                || run.IsMark(motion, cutter)
            )
            {
                continue;
            }
            Look(carver, motion, cutter, top, motion.Kind == MotionKind.Rapid && !e.IsCycle);
            Cut(carver, motion, cutter);
        }
        if (run.Setup == Setup.Top && run.Design.Removals.Any(r => r.Kind == FeatureKind.Skim))
        {
            Rim(grid);
        }
        return [.. _faults];
    }

    private void Look(Carver carver, Motion motion, Cutter cutter, double top, bool rapid)
    {
        Tool tool = cutter.Tool;
        Piece piece = Piece.From(motion);
        double low = Run.Low(motion) - corner.Longer;
        bool up = piece.Length < 1e-9 && motion.To.Z >= motion.From.Z;
        if (rapid && !up)
        {
            Above(
                carver,
                motion,
                piece,
                cutter.Radius + corner.Wider - JudgeRules.RapidSlack,
                low,
                top,
                CornerFault.Rapid
            );
        }
        if (tool.ShankDiameter > tool.Diameter + 1e-6)
        {
            Above(carver, motion, piece, tool.ShankDiameter / 2, low + tool.FluteLength, top, CornerFault.Shank);
        }
        Above(carver, motion, piece, tool.HolderDiameter / 2, low + tool.StickOut, top, CornerFault.Holder);
    }

    private void Above(
        Carver carver,
        Motion motion,
        Piece piece,
        double radius,
        double z,
        double top,
        CornerFault fault
    )
    {
        if (z < top && radius > 0 && carver.Highest(piece, radius) is { } highest && highest > z + 1e-3)
        {
            _faults.Add(new Faulty(fault, motion.Line, highest - z, motion.To.Xy));
        }
    }

    /// <summary>Only what is wider than a finishing pass is a pass of its own.</summary>
    private void Cut(Carver carver, Motion motion, Cutter cutter)
    {
        double limit = run.StepDown(cutter.Tool) + JudgeRules.StepSlack;
        Tally tally = carver.Cut(motion, cutter, limit);
        double length = Math.Max(Piece.From(motion).Length, cutter.Tool.Diameter);
        bool wide = tally.DeepMm2 / length > cutter.Tool.Diameter / 2;
        if (cutter.Tool.Kind != ToolKind.Drill && run.Setup != Setup.Trim && tally.Deepest > limit && wide)
        {
            _faults.Add(new Faulty(CornerFault.Deep, motion.Line, tally.Deepest - limit, motion.To.Xy));
        }
    }

    /// <summary>The whole face is skimmed wherever the stops let the block lie.</summary>
    private void Rim(BlockGrid grid)
    {
        double face = run.Design.FixtureHeight + run.Limits.Leftover;
        (double highest, Point2 at) = (face, default);
        for (int cell = 0; cell < grid.Rows * grid.Columns; cell++)
        {
            double top = grid.TopHeights.HeightAt(cell);
            Point2 p = grid.Centre(cell);
            // the last cells may reach past the block
            if (top > highest && p.X < grid.Box.MaxX && p.Y < grid.Box.MaxY)
            {
                (highest, at) = (top, p);
            }
        }
        if (highest > face)
        {
            _faults.Add(new Faulty(CornerFault.Rim, 0, highest - run.Design.FixtureHeight, at));
        }
    }
}

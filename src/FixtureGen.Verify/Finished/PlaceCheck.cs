using FixtureGen.Model;
using FixtureGen.Verify.Carving;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Finished;

/// <summary>Where the tool may be at all: inside the machine's travel, near the blank, above the plate but for its reliefs.</summary>
internal static class PlaceCheck
{
    public static void Check(Run run)
    {
        foreach ((_, FixtureGen.Verify.Reading.ProgramEvent e, Motion motion) in run.Motions())
        {
            Box2 box = Piece.From(motion).Bounds();
            if (!e.ToHome)
            {
                Travel(run, motion, box);
            }
            if (
                !e.ToHome
                && Run.Low(motion) < run.StockTop + JudgeRules.LowTravel
                && run.CutterOf(motion) is { } cutter
            )
            {
                Blank(run, motion, box, cutter);
                Plate(run, motion, cutter);
            }
        }
    }

    private static void Travel(Run run, Motion motion, Box2 box)
    {
        Box3 t = run.Job.Plate.Machine.Travel;
        double low = Run.Low(motion);
        double high = Math.Max(motion.From.Z, motion.To.Z);
        (double over, string end) = (
            ((double, string)[])
                [
                    (t.MinX - box.MinX, "least X"),
                    (box.MaxX - t.MaxX, "greatest X"),
                    (t.MinY - box.MinY, "least Y"),
                    (box.MaxY - t.MaxY, "greatest Y"),
                    (t.MinZ - low, "least Z"),
                    (high - t.MaxZ, "greatest Z"),
                ]
        ).MaxBy(e => e.Item1);
        if (over > 1e-6)
        {
            run.Log.Error(
                "outside-travel",
                motion.Line,
                $"the motion leaves the machine's travel by {over:0.###} mm beyond its {end}",
                "Correct the position",
                motion.To.Xy
            );
        }
    }

    private static void Blank(Run run, Motion motion, Box2 box, Cutter cutter)
    {
        Box2 b = run.Blank;
        double over = new[] { b.MinX - box.MinX, box.MaxX - b.MaxX, b.MinY - box.MinY, box.MaxY - b.MaxY }.Max();
        if (over <= cutter.Radius + JudgeRules.BeyondBlank)
        {
            return;
        }
        if (Run.Low(motion) < run.StockTop)
        {
            run.Log.Error(
                "outside-blank",
                motion.Line,
                $"the tip goes {over:0.##} mm beyond the blank at Z {Run.Low(motion):0.##}, below the block's top",
                "Correct the position, or retract before leaving the block",
                motion.To.Xy
            );
        }
        else
        {
            run.Log.Warn(
                "outside-blank",
                motion.Line,
                $"the tip goes {over:0.##} mm beyond the blank at Z {Run.Low(motion):0.##}, hardly above the block's top",
                "Correct the position, or travel higher where nobody knows what stands",
                motion.To.Xy
            );
        }
    }

    private static void Plate(Run run, Motion motion, Cutter cutter)
    {
        double low = Run.Low(motion);
        if (low >= run.Job.Plate.Skin - 1e-6)
        {
            return;
        }
        Piece piece = Piece.From(motion);
        PlateOpening? best = run
            .Job.Plate.Openings.Where(o => o.ReliefDiameter > 0)
            .MinBy(o => Farthest(piece, o.At) - (o.ReliefDiameter / 2));
        double beside = best is null
            ? double.MaxValue
            : Farthest(piece, best.At) + cutter.Radius + run.Limits.PlateGap - (best.ReliefDiameter / 2);
        double below = best is null ? 0 : run.Limits.PlateGap - low - best.ReliefDepth;
        if ((best is null || beside > 1e-6 || (below > 1e-6 && low < 0)) && !OverGroove(run, piece, cutter, low))
        {
            string where =
                best is null || beside > 1e-6 ? "outside every relief of the plate" : $"too deep for {best.Name}";
            run.Log.Error(
                "below-plate-face",
                motion.Line,
                $"the tip goes to Z {low:0.###}, {where}; the plate's face is Z 0 and its skin {run.Job.Plate.Skin:0.###} mm",
                "Stop at the skin, or move the hole over an opening with relief",
                motion.To.Xy
            );
        }
    }

    /// <summary>A vacuum groove in the plate's face is empty space too, as wide and deep as it is cut.</summary>
    private static bool OverGroove(Run run, Piece piece, Cutter cutter, double low) =>
        run.Job.Plate.Grooves.Any(g =>
            run.Limits.PlateGap - low <= g.Depth + 1e-6
            && g.Run.Segments.Select(Piece.From)
                .Any(s => FarthestFrom(piece, s) + cutter.Radius + run.Limits.PlateGap <= (g.Width / 2) + 1e-6)
        );

    /// <summary>At most this far from the run is any point of the piece: its ends, and for an arc its centre and radius.</summary>
    private static double FarthestFrom(Piece piece, Piece run)
    {
        double ends = Math.Max(Distance.To(run, piece.A), Distance.To(run, piece.B));
        return piece.IsArc ? Math.Max(ends, Distance.To(run, piece.C) + piece.R) : ends;
    }

    private static double Farthest(Piece piece, Point2 from)
    {
        double ends = Math.Max(piece.A.DistanceTo(from), piece.B.DistanceTo(from));
        return piece.IsArc ? Math.Max(ends, piece.C.DistanceTo(from) + piece.R) : ends;
    }
}

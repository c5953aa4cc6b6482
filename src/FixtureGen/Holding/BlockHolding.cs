using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Holding;

/// <summary>
/// Holding of the block while it is cut: the plate's vacuum on its seal zone less the plate gasket's push, the plate's
/// friction under the whole block, pressed evenly or at the rim (the worse counts), and the bolts once they are in. The
/// worst place of each operation is a corner of the convex hull of its cuts (the multiplier's inverse is convex in the place),
/// at the height of its highest cut; 16 directions are tried. Pins and stops are not counted.
/// </summary>
public static class BlockHolding
{
    /// <summary>
    /// Share that is relied on of a bolt's nominal preload, torque / (nut factor times diameter): torque scatters by some 30 %;
    /// common practice, no source.
    /// </summary>
    public const double PreloadShare = 0.7;

    private const int Directions = 16;
    private const int AreaPieces = 140;

    /// <summary>
    /// One answer per operation, in order. Errors: block-hold-low below the house limit for the block; vacuum-altitude, with no
    /// answer, outside -500 to 11 000 m.
    /// </summary>
    /// <param name="operations">Each with whether the bolts are in, and whether the plate's seal is broken by then: no vacuum.</param>
    public static Stage<ImmutableArray<BlockHold>> Evaluate(
        FixtureDesign design,
        Job job,
        IReadOnlyList<(Operation Op, bool Bolted, bool SealBroken)> operations
    )
    {
        if (job.Vacuum.AltitudeM is not (>= -500 and <= 11_000))
        {
            return Stage.Failed<ImmutableArray<BlockHold>>(HoldingFindings.Altitude(job.Vacuum.AltitudeM));
        }
        BlockSeat seat = new(design, job);
        var holds = ImmutableArray.CreateBuilder<BlockHold>();
        List<Finding> findings = [];
        foreach ((Operation op, bool bolted, bool broken) in operations)
        {
            BlockHold hold = Worst(seat.Held(bolted, broken), op, job, design.FixtureHeight, bolted);
            holds.Add(hold);
            if (hold.Factor < job.Limits.BlockFactor)
            {
                findings.Add(HoldingFindings.BlockLow(hold, broken, job.Limits.BlockFactor));
            }
        }
        return Stage.Of(holds.ToImmutable(), findings);
    }

    private static BlockHold Worst(HeldPart[] held, Operation op, Job job, double faceZ, bool bolted)
    {
        (CutForce force, double engaged) = BlockCut.Of(op, job, faceZ);
        double height = BlockCut.Height(op);
        BlockHold worst = new(op.Name, LimitState.Most, HoldMode.Slide, bolted, engaged);
        LimitAnswer[] last = new LimitAnswer[held.Length];
        foreach (Point2 at in ConvexHull.Of(BlockCut.Places(op)))
        {
            for (int k = 0; k < Directions; k++)
            {
                double angle = 2 * Math.PI * k / Directions;
                Point2 shear = new Point2(Math.Cos(angle), Math.Sin(angle)) * force.Shear;
                CutLoad load = new(at, shear, force.Axial, height);
                for (int i = 0; i < held.Length; i++)
                {
                    LimitAnswer answer = last[i] = LimitState.Solve(held[i], load, last[i]);
                    worst =
                        answer.Factor < worst.Factor
                            ? worst with
                            {
                                Factor = answer.Factor,
                                Mode = answer.Mode,
                            }
                            : worst;
                }
            }
        }
        return worst;
    }

    /// <summary>The block on the plate: contact, seal and bolts.</summary>
    private sealed class BlockSeat
    {
        private readonly PressureMeasure uniform;
        private readonly PressureMeasure edge;
        private readonly Point2[] hull;
        private readonly Pressing net;
        private readonly PressPoint[] bolts;
        private readonly double friction;

        public BlockSeat(FixtureDesign design, Job job)
        {
            Plate plate = job.Plate;
            friction = plate.FrictionBlockOnPlate;
            Contour outline = Contours.Rectangle(design.Placement.BlankBox);
            uniform = new PressureMeasure(ContactQuadrature.OverArea([Region.Of(outline)], AreaPieces));
            edge = new PressureMeasure(ContactQuadrature.AlongLines([outline], Measure.Length(outline) / 80));
            hull = ConvexHull.Of([outline]);
            net = Vacuum(plate, VacuumLevel.Of(job.Vacuum).Used);
            double preload = PreloadShare * job.Bolt.TorqueNm * 1000 / (job.Bolt.NutFactor * job.Bolt.Body);
            bolts =
            [
                .. design
                    .Features.OfType<HoleFeature>()
                    .Where(h => h.Kind == FeatureKind.BoltHole)
                    .Select(h => new PressPoint(h.At, preload, preload * friction, h.Diameter / 2)),
            ];
        }

        public HeldPart[] Held(bool bolted, bool broken)
        {
            Pressing vacuum = broken ? default : net;
            return
            [
                .. new[] { uniform, edge }.Select(m => new HeldPart(
                    m,
                    friction,
                    vacuum.Force,
                    vacuum.First - (vacuum.Force * m.Middle),
                    bolted ? bolts : [],
                    hull
                )),
            ];
        }

        private static Pressing Vacuum(Plate plate, double kPa)
        {
            Contour loop = Contours.Ccw(plate.SealLoop);
            ContactPiece[] pieces = ContactQuadrature.OverArea([Region.Of(loop)], AreaPieces);
            double gone = Measure.Length(loop) * plate.SealGrooveWidth / 2;
            double whole = Measure.Area(loop);
            Point2 middle = new PressureMeasure(pieces).Middle;
            double force =
                Atmosphere.ForceN(kPa, Math.Max(0, whole - gone)) - (plate.SealReactionNPerMm * Measure.Length(loop));
            return new Pressing(force, middle * force);
        }
    }
}

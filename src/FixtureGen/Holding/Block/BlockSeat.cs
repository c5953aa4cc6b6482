using FixtureGen.Geometry;
using FixtureGen.Holding.Seal;
using FixtureGen.Holding.Sliding;
using FixtureGen.Model;
using FixtureGen.Shop.Files;

namespace FixtureGen.Holding.Block;

/// <summary>The block on the plate: contact, seal and bolts.</summary>
internal sealed class BlockSeat
{
    private const int AreaPieces = 140;

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
        double preload = BlockHolding.PreloadShare * job.Bolt.TorqueNm * 1000 / (job.Bolt.NutFactor * job.Bolt.Body);
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

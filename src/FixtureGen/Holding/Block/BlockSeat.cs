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

    private readonly PressureMeasure _uniform;
    private readonly PressureMeasure _edge;
    private readonly Point2[] _hull;
    private readonly Pressing _net;
    private readonly PressPoint[] _bolts;
    private readonly double _friction;

    public BlockSeat(FixtureDesign design, Job job)
    {
        Plate plate = job.Plate;
        _friction = plate.FrictionBlockOnPlate;
        Contour outline = Contours.Rectangle(design.Placement.BlankBox);
        _uniform = new PressureMeasure(ContactQuadrature.OverArea([Region.From(outline)], AreaPieces));
        _edge = new PressureMeasure(ContactQuadrature.AlongLines([outline], Measure.Length(outline) / 80));
        _hull = ConvexHull.Around([outline]);
        _net = Vacuum(plate, VacuumLevel.From(job.Vacuum).Used);
        double preload = BlockHolding.PreloadShare * job.Bolt.TorqueNm * 1000 / (job.Bolt.NutFactor * job.Bolt.Body);
        _bolts =
        [
            .. design
                .Features.OfType<HoleFeature>()
                .Where(h => h.Kind == FeatureKind.BoltHole)
                .Select(h => new PressPoint(h.At, preload, preload * _friction, h.Diameter / 2)),
        ];
    }

    public HeldPart[] Held(bool bolted, bool broken)
    {
        Pressing vacuum = broken ? default : _net;
        return
        [
            .. new[] { _uniform, _edge }.Select(m => new HeldPart(
                m,
                _friction,
                vacuum.Force,
                vacuum.First - (vacuum.Force * m.Middle),
                bolted ? _bolts : [],
                _hull
            )),
        ];
    }

    private static Pressing Vacuum(Plate plate, double kPa)
    {
        Contour loop = Contours.Ccw(plate.SealLoop);
        ContactPiece[] pieces = ContactQuadrature.OverArea([Region.From(loop)], AreaPieces);
        double gone = Measure.Length(loop) * plate.SealGrooveWidth / 2;
        double whole = Measure.Area(loop);
        Point2 middle = new PressureMeasure(pieces).Middle;
        double force =
            Atmosphere.ForceN(kPa, Math.Max(0, whole - gone)) - (plate.SealReactionNPerMm * Measure.Length(loop));
        return new Pressing(force, middle * force);
    }
}

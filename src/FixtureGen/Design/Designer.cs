using System.Collections.Immutable;
using FixtureGen.Design.Block;
using FixtureGen.Design.Forms;
using FixtureGen.Design.Labels;
using FixtureGen.Design.Seals;
using FixtureGen.Design.Vacuum;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design;

/// <summary>
/// From a placed part to everything the block is given. Begin makes what does not depend on magnets; Finish adds their
/// pockets, the net that must go round them, the label, and checks the whole. Plate frame, mm.
/// </summary>
public static class Designer
{
    /// <summary>
    /// The design without magnets, net and label. Findings with severity error (no zone, no port, floors too thin, bolts
    /// or pins under the part and so on) mean that no fixture can be made of it.
    /// </summary>
    public static Stage<FixtureDesign> Begin(Part part, Placement placement, Job job, Tolerances tolerances) =>
        FindingLog.Tell(log =>
            log.Take(Begin(log.Take(Ground.Lay(part, placement, job, tolerances)), job, tolerances, null))
        );

    /// <summary>The same on a ground that stands; its findings are not repeated.</summary>
    /// <param name="on">Of this job, but for its magnets and ports.</param>
    /// <param name="memory">See <see cref="KernelMemory"/>; for trying many layouts of one part.</param>
    public static Stage<FixtureDesign> Begin(Ground on, Job job, Tolerances tolerances, KernelMemory? memory) =>
        FindingLog.Tell(log =>
        {
            Ground.Things ground = on.Laid;
            Kernel kernel = new(tolerances, memory);
            (Part placed, Placement placement, Levels levels) = (ground.Placed, ground.Placement, ground.Levels);
            Box2 block = placement.BlankBox;
            ImmutableArray<Obstacle> standing = [.. ground.Obstacles, .. Obstacles.Find(ground.Locators)];
            ImmutableArray<Point2> wished = Wished(placed, placement.Pose, job);
            ImmutableArray<Point2> asked = [.. job.Ports.Select(p => Transform.Apply(placement.Pose, p))];
            Ports.Fed fed = log.Take(
                job.HoldBy == HoldBy.Magnets
                    ? Stage.Answer(new Ports.Fed([], [], []))
                    : Ports.Feed(
                        ground.Boundaries,
                        Plugs.Feet(placed, null, levels, job, kernel),
                        ground.Obstacles,
                        wished,
                        placed.Engravings,
                        asked,
                        0,
                        levels,
                        job,
                        kernel
                    )
            );
            ImmutableArray<SealedZone> zones =
            [
                .. fed.Zones.Select(z =>
                    z with
                    {
                        Hollows = SealedForms.Hollows(placed, z.Boundary, kernel),
                        Plugs = Plugs.Feet(placed, z.Boundary, levels, job, kernel),
                    }
                ),
            ];
            log.AddRange(FormPockets.Domes(placed, zones));
            ImmutableArray<FormBearing> bearings = FormStrength.Held(ground.Bearings, placed, zones);
            log.AddRange(FormStrength.Judge(bearings, placed, job));
            Plugs.Laid plugs = Plugs.Raise(placed, block, NetWidth.Choose(job)?.Diameter ?? 0, levels, job, kernel);
            GasketGrooves.Laid gaskets = GasketGrooves.Lay(zones, levels, job.Gasket, kernel);
            SkirtLand.Laid skirt = log.Take(
                SkirtLand.Lay(
                    placed,
                    ground.Around,
                    ground.Relief.Area,
                    standing,
                    block,
                    fed.Zones.Length,
                    levels,
                    job,
                    kernel
                )
            );

            ImmutableArray<Feature> features =
            [
                Skim.Over(block, levels with { Face = plugs.Top }, job.Plate.PlacingTolerance),
                .. plugs.Features,
                ground.Relief,
                .. ground.Pockets,
                .. gaskets.Grooves,
                .. skirt.Features,
                .. ground.Locators,
                .. ground.Bolts,
                .. ground.Pins,
                .. fed.Features,
            ];
            ImmutableArray<Region> contact = Contact.Find(placed, features, kernel);
            log.AddRange(KernelNotes.Notes([.. ground.Repairs, .. kernel.Repairs], "design"));
            return new FixtureDesign
            {
                Part = placed,
                Placement = placement,
                FixtureHeight = levels.Face,
                RawThickness = levels.Raw,
                Flip = features.Any(f => f.Setup == Setup.Underside) ? new Flip(block.Middle.X) : null,
                Zones = zones,
                Cords = gaskets.Cords,
                Magnets = [],
                TrimCuts = ground.Trims,
                DrilledHoles = ground.Holes,
                Features = features,
                VacuumPath = [.. fed.Links, .. skirt.Links],
                Contact = contact,
                Label = "",
                SkirtZones = skirt.Zones,
                SkirtCords = skirt.Cords,
                Bearings = bearings,
            };
        });

    /// <summary>The whole design: a begun one with its magnets chosen.</summary>
    /// <param name="memory">See <see cref="KernelMemory"/>; null for none.</param>
    public static Stage<FixtureDesign> Finish(
        FixtureDesign begun,
        ImmutableArray<MagnetPlace> magnets,
        Job job,
        Tolerances tolerances,
        KernelMemory? memory = null
    ) =>
        FindingLog.Tell(log =>
        {
            Kernel kernel = new(tolerances, memory);
            Levels levels = Levels.From(job);
            Box2 block = begun.Placement.BlankBox;

            ImmutableArray<Feature> pockets = log.Take(
                MagnetPockets.Cut(magnets, begun.Zones, begun.Features, levels, job, kernel)
            );
            Region[] pocketAreas = [.. pockets.SelectMany(p => p.Removals).SelectMany(r => r.Area)];
            SealedZone[] zones = [.. begun.Zones, .. begun.SkirtZones];
            ImmutableArray<Net.Laid> nets = log.Take(
                zones.Length == 0
                    ? Stage.Answer(ImmutableArray<Net.Laid>.Empty)
                    : Net.Lay(zones, kernel.UnionAll(pocketAreas), levels, job, kernel)
            );
            NetReachCheck check = new(
                magnets,
                Wished(begun.Part, begun.Placement.Pose, job),
                MagnetPockets.Areas(pockets),
                levels,
                job,
                kernel
            );
            log.AddRange(nets.SelectMany(check.Check));
            string text = Label.Text(job, magnets.Length);
            FreeFace face = Face(begun, nets, block, job, kernel);
            ImmutableArray<Feature> label = log.Take(
                Label.Engrave(text, magnets.Length > 0, face, levels, job, kernel)
            );

            ImmutableArray<Feature> features =
            [
                .. begun.Features,
                .. nets.Select(n => n.Groove),
                .. nets.SelectMany(n => n.Holes),
                .. pockets,
                .. label,
            ];
            ImmutableArray<VacuumLink> links = [.. begun.VacuumPath, .. nets.SelectMany(n => n.Links)];
            log.AddRange(VacuumGraph.Check(zones, links, job.Plate));
            log.AddRange(DepthChain.Check(features, job.Rules.LeastFloor, kernel));
            log.AddRange(Conflicts.Check(features, block, job.Rules.Wall, kernel));
            ImmutableArray<Region> contact = Contact.Find(begun.Part, features, kernel);
            log.AddRange(KernelNotes.Notes(kernel.Repairs, "design"));
            return begun with
            {
                Zones = Reached(begun.Zones, nets),
                SkirtZones = Reached(begun.SkirtZones, nets),
                Magnets = magnets,
                Features = features,
                VacuumPath = links,
                Contact = contact,
                Label = text,
            };
        });

    /// <summary>The zones with what their nets reach; without a net nothing is.</summary>
    private static ImmutableArray<SealedZone> Reached(
        ImmutableArray<SealedZone> zones,
        ImmutableArray<Net.Laid> nets
    ) => [.. zones.Select(z => nets.FirstOrDefault(n => n.Zone.Index == z.Index)?.Zone ?? z with { Reached = [] })];

    /// <summary>Where the label may go: on the face, a wall inside the edges and a wall from every cut and the part.</summary>
    private static FreeFace Face(FixtureDesign begun, ImmutableArray<Net.Laid> nets, Box2 block, Job job, Kernel kernel)
    {
        Region[] taken =
        [
            Region.From(begun.Part.Outer),
            .. begun.Removals.Where(r => !r.MakesFace && r.Setup == Setup.Top).SelectMany(r => r.Area),
            .. nets.SelectMany(n => n.Holes.Append(n.Groove)).SelectMany(f => f.Removals).SelectMany(r => r.Area),
        ];
        ImmutableArray<Region> grown = kernel.Offset(kernel.UnionAll(taken), job.Rules.Wall);
        return new(block.Outset(-BlankSeat.EdgeMargin(job)), grown, kernel);
    }

    /// <summary>Magnet places that the drawing or the job asks for, plate frame.</summary>
    private static ImmutableArray<Point2> Wished(Part placed, Pose pose, Job job) =>
        [.. placed.MagnetWishes, .. job.Magnets.Select(m => Transform.Apply(pose, m.At))];
}

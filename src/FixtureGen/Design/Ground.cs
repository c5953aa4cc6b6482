using System.Collections.Immutable;
using FixtureGen.Design.Block;
using FixtureGen.Design.Forms;
using FixtureGen.Design.Labels;
using FixtureGen.Design.Seals;
using FixtureGen.Design.Trim;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design;

/// <summary>
/// What a placed part and the job's settings alone decide, from the block's holes to where the seals run: none of the job's
/// magnets and ports changes it, so that it serves for trying many of them. Plate frame, mm.
/// </summary>
public sealed class Ground
{
    private Ground(Things laid) => Laid = laid;

    internal Things Laid { get; }

    /// <summary>Findings with severity error mean that no fixture can be made of the part in this place.</summary>
    public static Stage<Ground> Lay(Part part, Placement placement, Job job, Tolerances tolerances) =>
        FindingLog.Tell(log =>
        {
            Kernel kernel = new(tolerances);
            Box2 block = placement.BlankBox;
            Part lettered = log.Take(MarkLetters.Cut(PlacedPart.Place(placement.Pose, part), job));
            Levels levels = log.Take(Levels.Checked(job));
            ImmutableArray<FormBearing> bearings = log.Take(FormStrength.Find(lettered, job, kernel));
            Part placed = Plugs.Choose(lettered, bearings);
            log.AddRange(Plugs.Check(placed, levels, job));
            log.AddRange(FormTops.Check(placed, job, kernel));
            log.AddRange(PlateSeal.CheckCover(job, block));

            ImmutableArray<Feature> bolts = log.Take(Bolts.Bore(job, block, levels));
            ImmutableArray<Feature> pins = log.Take(Pins.Bore(job, block, levels));
            ImmutableArray<Obstacle> obstacles = Obstacles.Find(job, block);

            ImmutableArray<TrimCut> trims = log.Take(TrimPlanner.Plan(placed, job, kernel));
            ImmutableArray<DrilledHole> holes = DrillChoice.Plan(placed, job, kernel);
            TrimCut outline = trims.Single(c => c.Kind == TrimKind.Outline);
            ImmutableArray<Region> around = Relief.Around(outline, trims, job, kernel);
            if (Relief.NarrowerBy(job) is > 0 and var by)
            {
                log.AddRange([TrimFindings.ReliefNarrow(by)]);
            }
            log.Take(Clearances.Check(around, obstacles, block, job));
            ImmutableArray<Feature> locators = log.Take(
                Locators.Place(placement.Pose, placed, around, obstacles, block, levels, job)
            );
            ImmutableArray<Obstacle> standing = [.. obstacles, .. Obstacles.Find(locators)];
            PocketFeature relief = log.Take(Relief.Outline(outline, around, standing, block, levels, job, kernel));
            ImmutableArray<PocketFeature> pockets =
            [
                .. Relief.Cutouts(trims, levels, job, kernel),
                .. Relief.Holes(holes, levels, job),
                .. log.Take(FormPockets.Cut(placed, levels, job, kernel)),
            ];
            Region[] given = [.. around, .. pockets.SelectMany(p => p.Area)];
            return new Ground(
                new Things
                {
                    Placed = placed,
                    Placement = placement,
                    Levels = levels,
                    Bolts = bolts,
                    Pins = pins,
                    Locators = locators,
                    Obstacles = obstacles,
                    Trims = trims,
                    Holes = holes,
                    Around = around,
                    Relief = relief,
                    Pockets = pockets,
                    Bearings = bearings,
                    Boundaries = log.Take(Zones.Find(placed, given, job, kernel)),
                    Repairs = kernel.Repairs,
                }
            );
        });

    internal sealed record Things
    {
        public required Part Placed { get; init; }

        public required Placement Placement { get; init; }

        public required Levels Levels { get; init; }

        public required ImmutableArray<Feature> Bolts { get; init; }

        public required ImmutableArray<Feature> Pins { get; init; }

        public required ImmutableArray<Feature> Locators { get; init; }

        public required ImmutableArray<Obstacle> Obstacles { get; init; }

        public required ImmutableArray<TrimCut> Trims { get; init; }

        /// <summary>Cutouts that are drilled.</summary>
        public required ImmutableArray<DrilledHole> Holes { get; init; }

        /// <summary>The relief of the outline's cut without its way out.</summary>
        public required ImmutableArray<Region> Around { get; init; }

        public required PocketFeature Relief { get; init; }

        /// <summary>Reliefs of cutouts and pockets of forms.</summary>
        public required ImmutableArray<PocketFeature> Pockets { get; init; }

        /// <summary>What the forms that rise and are not opened by a cutout bear.</summary>
        public required ImmutableArray<FormBearing> Bearings { get; init; }

        /// <summary>Where the seals run.</summary>
        public required ImmutableArray<Region> Boundaries { get; init; }

        public required ImmutableArray<KernelRepair> Repairs { get; init; }
    }
}

using System.Collections.Immutable;
using FixtureGen.Design.Block;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design;

/// <summary>
/// Puts the part on the blank: as the job says, or shifted and turned so that the relief stays on the block, clear of
/// bolts and pins, and as many zones as can be lie over a port of the plate, which saves turning the block over.
/// </summary>
public static class Placing
{
    /// <summary>Turns that are tried, tier by tier, degrees; a later tier only where an earlier one leaves something to wish.</summary>
    private static readonly ImmutableArray<ImmutableArray<double>> Tiers =
    [
        [0, 90, 180, 270],
        [.. Multiples(15)],
        [.. Multiples(5)],
    ];

    /// <summary>The placement, or findings that say what is short, by how much, and which blank of the shop would do.</summary>
    public static Stage<Placement> Place(Part part, Job job, Tolerances tolerances) =>
        FindingLog.Tell(log =>
        {
            Box2 block = log.Take(BlankSeat.Seat(job.Plate, job.Blank));
            if (job.Placement is { } pose)
            {
                return new Placement(pose, job.Blank, block);
            }
            Kernel kernel = new(tolerances);
            Footprint footprint = log.Take(ErrorsOnly(Footprint.Find(part, job, kernel)));
            PlaceSearch.Result found = Search(footprint, block, job);
            if (found.Pose is { } free)
            {
                return new Placement(free, job.Blank, block);
            }
            string[] others = Larger(footprint, job);
            return log.Take(Stage.Failed<Placement>(PlaceFindings.DoesNotFit(found.Short!, job.Blank, others)));
        });

    /// <summary>
    /// Notes and warnings come again when the placed part is designed. The part has no place on the plate yet, so an error's
    /// place is one of the drawing, and says so.
    /// </summary>
    private static Stage<T> ErrorsOnly<T>(Stage<T> stage) =>
        stage with
        {
            Findings = stage.Ok
                ? []
                : [.. stage.Findings.Where(f => f.Severity == Severity.Error).Select(OfTheDrawing)],
        };

    private static Finding OfTheDrawing(Finding finding) =>
        finding.At is null ? finding : finding with { Where = finding.Where + " of the drawing" };

    /// <summary>The shop's other blanks on which the part fits; stock of one size is tried once.</summary>
    private static string[] Larger(Footprint footprint, Job job)
    {
        HashSet<(double, double)> fit =
        [
            .. job
                .OtherBlanks.DistinctBy(Size)
                .Where(b => Size(b) != Size(job.Blank) && Fits(footprint, b, job))
                .Select(Size),
        ];
        return [.. job.OtherBlanks.Where(b => fit.Contains(Size(b))).Select(b => b.Name)];

        static (double Width, double Height) Size(Blank blank) => (blank.Width, blank.Height);
    }

    private static bool Fits(Footprint footprint, Blank blank, Job job) =>
        BlankSeat.Seat(job.Plate, blank) is { Ok: true } seat && Search(footprint, seat.Value, job).Pose is not null;

    private static PlaceSearch.Result Search(Footprint footprint, Box2 block, Job job)
    {
        ImmutableArray<Obstacle> obstacles = Obstacles.Find(job, block);
        PlaceSearch.Result best = PlaceSearch.Result.None;
        foreach (ImmutableArray<double> tier in Tiers)
        {
            foreach (double angle in tier)
            {
                best = best.Or(PlaceSearch.TryAngle(angle, footprint.Turned(angle), obstacles, block, job));
                if (best.Fed == footprint.PortRooms.Length)
                {
                    return best;
                }
            }
        }
        return best;
    }

    private static IEnumerable<double> Multiples(int step) =>
        Enumerable.Range(0, 360 / step).Select(i => (double)(i * step)).Where(a => a % 90 != 0);
}

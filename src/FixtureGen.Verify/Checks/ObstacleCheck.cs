using FixtureGen.Model;
using FixtureGen.Verify.Carving;
using FixtureGen.Verify.Reading;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Checks;

/// <summary>Something that stands up to Top: a round thing about At, or, with an Area, the ground plan of a form.</summary>
internal sealed record Obstacle(string Name, Point2 At, double Radius, Area? Area, double Top)
{
    /// <summary>How low an engraver's tip may go on its top, where it is engraved; else as high as it is.</summary>
    public double MarkTop { get; init; } = Top;

    /// <summary>Least distance of the path from the thing; negative or zero is contact for an axis.</summary>
    public double From(Piece path)
    {
        if (Area is null)
        {
            return Distance.To(path, At) - Radius;
        }
        if (Area.Contains(path.A))
        {
            return 0;
        }
        return Area.Pieces.Min(p => Distance.Between(path, p).Distance);
    }

    /// <summary>Least distance from the ground that the axes of a rapid may pass over, in whatever order they run.</summary>
    public double From(Box2 ground)
    {
        if (Area is null)
        {
            return RapidSpace.Away(ground, At) - Radius;
        }
        Point2[] p =
        [
            new(ground.MinX, ground.MinY),
            new(ground.MaxX, ground.MinY),
            new(ground.MaxX, ground.MaxY),
            new(ground.MinX, ground.MaxY),
        ];
        return RapidSpace.Away(ground, Area.Pieces[0].A) <= 0
            ? 0
            : Enumerable.Range(0, 4).Min(i => From(Piece.Line(p[i], p[(i + 1) % 4])));
    }
}

/// <summary>Cutter, shank and holder against jackets, bolt heads, pins, forms and edge stops, along every motion.</summary>
internal static class ObstacleCheck
{
    /// <summary>What stands on and in the block while the shell is trimmed.</summary>
    public static IEnumerable<Obstacle> OfTrim(Run run)
    {
        (Job job, FixtureDesign design) = (run.Job, run.Design);
        double shellTop = design.FixtureHeight + job.Shell.ThicknessMax;
        foreach (MagnetPlace magnet in design.Magnets)
        {
            double top = shellTop + job.Magnet.JacketHeight;
            yield return new Obstacle("the jacket", magnet.At, job.Magnet.JacketDiameter / 2, null, top);
        }
        foreach (FormRegion form in design.Part.Forms.Where(f => f.Direction == FormDirection.Up))
        {
            Area area = new(Region.From(form.Edge));
            yield return new Obstacle("the form", default, 0, area, shellTop + form.Height)
            {
                MarkTop = form.Top == FormTop.Flat ? FormTops.MarkFloor(run, form, area) : shellTop + form.Height,
            };
        }
        foreach (Obstacle bolt in Bolts(job, design))
        {
            yield return bolt;
        }
        foreach (HoleFeature pin in Holes(design, FeatureKind.PinHole).Concat(Holes(design, FeatureKind.PinSlot)))
        {
            yield return new Obstacle("the pin", pin.At, job.Pin.Diameter / 2, null, job.Pin.Projection);
        }
    }

    /// <summary>Bolt heads with their washers, in the counterbores where there are any.</summary>
    public static IEnumerable<Obstacle> Bolts(Job job, FixtureDesign design)
    {
        HoleFeature[] bores = [.. Holes(design, FeatureKind.Counterbore)];
        double radius = Math.Max(job.Bolt.WasherDiameter, job.Bolt.HeadDiameter) / 2;
        foreach (HoleFeature hole in Holes(design, FeatureKind.BoltHole))
        {
            double seat = bores.FirstOrDefault(b => b.At.DistanceTo(hole.At) < 0.1)?.FloorZ ?? design.FixtureHeight;
            double top = seat + job.Bolt.WasherThickness + job.Bolt.HeadHeight;
            yield return new Obstacle("the bolt", hole.At, radius, null, top);
        }
    }

    /// <summary>The plate's edge stops, which stand beside the blank in every setup.</summary>
    public static IEnumerable<Obstacle> Stops(Job job) =>
        job.Plate.Stops.Select(s =>
        {
            double radius = s.Diameter / 2;
            return new Obstacle("the edge stop", s.At - (s.Normal * radius), radius, null, s.Height);
        });

    /// <summary>Checks every motion of which <paramref name="when"/> is true.</summary>
    public static void Check(Run run, IReadOnlyList<Obstacle> obstacles, Func<ProgramEvent, bool> when)
    {
        double highest = obstacles.Select(o => o.Top).DefaultIfEmpty(double.MinValue).Max();
        foreach ((_, ProgramEvent e, Motion motion) in run.Motions())
        {
            if (Run.Low(motion) < highest && when(e) && run.CutterOf(motion) is { } cutter)
            {
                Check(run, motion, cutter, obstacles);
            }
        }
    }

    private static IEnumerable<HoleFeature> Holes(FixtureDesign design, FeatureKind kind) =>
        design.Features.OfType<HoleFeature>().Where(h => h.Kind == kind);

    private static void Check(Run run, Motion motion, Cutter cutter, IReadOnlyList<Obstacle> obstacles)
    {
        Piece path = Piece.From(motion);
        Tool tool = cutter.Tool;
        double low = Run.Low(motion);
        bool mark = run.IsMark(motion, cutter);
        foreach (Obstacle standing in obstacles)
        {
            bool on =
                mark && standing.Area is { } ground && ground.Contains(motion.From.Xy) && ground.Contains(motion.To.Xy);
            Obstacle obstacle = on ? standing with { Top = standing.MarkTop } : standing;
            (string Part, double Radius, double From)[] parts =
            [
                ("cutter", cutter.RadiusAt(obstacle.Top - low), low),
                ("shank", tool.ShankDiameter / 2, low + tool.FluteLength),
                ("holder", tool.HolderDiameter / 2, low + tool.StickOut),
            ];
            if (parts.All(p => p.From >= obstacle.Top))
            {
                continue;
            }
            double distance = Run.IsFeed(motion) ? obstacle.From(path) : obstacle.From(RapidSpace.Ground(motion));
            foreach ((string part, double radius, double from) in parts)
            {
                if (from < obstacle.Top && distance < radius)
                {
                    run.Log.Error(
                        "collision",
                        motion.Line,
                        $"the {part} of {tool.Name} hits {obstacle.Name} by {radius - distance:0.###} mm; it stands up to Z {obstacle.Top:0.##}",
                        "Travel higher or farther away, or move what stands there",
                        motion.To.Xy
                    );
                    break;
                }
            }
        }
    }
}

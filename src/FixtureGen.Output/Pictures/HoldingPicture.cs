using System.Globalization;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Output.Scenes;
using FixtureGen.Toolpaths;

namespace FixtureGen.Output.Pictures;

/// <summary>
/// How well the shell is held at every point of the trim: one panel for the vacuum alone, one for the magnets alone while
/// the machine stops, one for both, or one where magnets alone are the hold, each with its worst point marked.
/// </summary>
public static class HoldingPicture
{
    private const double PixelsPerMm = 4;
    private const double Gap = 8;
    private const double Text = 3.8;

    private sealed record Panel(string Title, HoldAnswer Worst, Func<HoldSample, double> Factor);

    /// <summary>PNG bytes; factors as in <paramref name="holding"/>, plate frame.</summary>
    public static byte[] Png(FixtureDesign design, HoldingResult holding, HouseLimits limits) =>
        SkiaDraw.Png(Draw(design, holding, limits), PixelsPerMm);

    internal static Scene Draw(FixtureDesign design, HoldingResult holding, HouseLimits limits)
    {
        bool byMagnets = holding.HoldBy == HoldBy.Magnets;
        Panel[] panels = byMagnets
            ? [new("Magnets alone, full load", holding.MagnetsOnly, s => s.MagnetsFullLoad)]
            :
            [
                new("Vacuum alone", holding.VacuumOnly, s => s.VacuumOnly),
                new("Magnets alone, while stopping", holding.MagnetsStopping, s => s.MagnetsStopping),
                new("Vacuum and magnets", holding.Both, s => s.Both),
            ];
        Box2 world = World(design);
        bool stacked = world.Width > 1.7 * world.Height;
        int shown = panels.Length;
        double width = stacked ? 200 : 104;
        double height = Math.Clamp(width * world.Height / world.Width, 30, 150);
        double head = 10 + (Text * 1.5);
        double row = height + head + Gap;
        Scene scene = new(
            Math.Max(190, Gap + (stacked ? width + Gap : shown * (width + Gap))),
            30 + 34 + (stacked ? shown * row : row)
        );
        Heading(scene, design, holding, LowHold.Shortfalls(holding, limits));
        for (int i = 0; i < panels.Length; i++)
        {
            double x = Gap + (stacked ? 0 : i * (width + Gap));
            double top = scene.Height - 30 - (stacked ? i * row : 0);
            Box2 box = new(x, top - head - height, x + width, top - head);
            DrawPanel(scene, design, holding, panels[i], box, View.Fit(world, box, 1.6, mirrorX: false));
        }
        FactorScale.Draw(scene, new Point2(Gap, 17), Text);
        string limit = byMagnets
            ? $"House limit: {N(limits.VacuumFactor)} on magnets alone."
            : $"House limits: {N(limits.VacuumFactor)} on vacuum, {N(limits.MagnetFactor)} on magnets while stopping, on its stops.";
        string key = $"Factor: how many times the cutting load would be held, worst case. {limit}";
        scene.Text(key, new Point2(Gap, 8), Typefaces.Shrunk(key, TypeStyle.Plain(3.4), scene.Width - (2 * Gap)));
        return scene;
    }

    private static void Heading(
        Scene scene,
        FixtureDesign design,
        HoldingResult holding,
        IEnumerable<string> shortfalls
    )
    {
        scene.Text(
            "How well the part is held along the trim",
            new Point2(Gap, scene.Height - 10),
            TypeStyle.Strong(5.4)
        );
        if (shortfalls.Any())
        {
            Point2 corner = new(scene.Width - Gap, scene.Height - 10);
            scene.Text(LowHold.Words, corner, TypeStyle.Strong(5.4), Anchor.Right);
        }
        bool byMagnets = holding.HoldBy == HoldBy.Magnets;
        string line = byMagnets
            ? $"{design.Label}.  Held by magnets alone, without cord and vacuum:"
            : $"{design.Label}.  At the alarm level {N(holding.VacuumKPa)} kPa: seal {N(holding.SealedForceN)} N, cord pushes back {N(holding.GasketForceN)} N,";
        string second = byMagnets
            ? $"magnets {N(holding.MagnetForceN)} N, cutting load up to {N(holding.CuttingForceN)} N."
            : $"magnets {N(holding.MagnetForceN)} N, cutting load up to {N(holding.CuttingForceN)} N. Magnets under full load, for information: {FactorScale.Text(holding.MagnetsOnly.Factor)}.";
        double room = scene.Width - (2 * Gap);
        scene.Text(line, new Point2(Gap, scene.Height - 17), Typefaces.Shrunk(line, TypeStyle.Plain(3.4), room));
        scene.Text(second, new Point2(Gap, scene.Height - 22.5), Typefaces.Shrunk(second, TypeStyle.Plain(3.4), room));
    }

    private static void DrawPanel(
        Scene scene,
        FixtureDesign design,
        HoldingResult holding,
        Panel panel,
        Box2 box,
        View view
    )
    {
        scene.Text(panel.Title, new Point2(box.MinX, box.MaxY + 7.5), TypeStyle.Strong(Text + 0.6));
        string worst =
            $"worst {FactorScale.Text(panel.Worst.Factor)}, {Mode(panel.Worst.Mode)}, at X {N(panel.Worst.At.X)} Y {N(panel.Worst.At.Y)}{Leaning(panel.Worst)}";
        scene.Text(worst, new Point2(box.MinX, box.MaxY + 2.5), TypeStyle.Plain(Text - 0.4));
        Part(scene, design, view);
        double k = Math.Clamp(view.Scale * 1.2, 0.55, 1);
        foreach ((Chain run, int band) in Runs(holding, panel.Factor).OrderByDescending(r => r.Band))
        {
            FactorScale.Stroke(scene, view.ToPage(run), band, k);
        }
        Flag(scene, panel.Worst, design.Magnets.Select(m => m.At), view, box);
    }

    /// <summary>What the stops make of it, where they do.</summary>
    private static string Leaning(HoldAnswer answer) =>
        answer.Stays > answer.Factor * 1.01 ? $"; {FactorScale.Text(answer.Stays)} once on its stops" : "";

    private static void Part(Scene scene, FixtureDesign design, View view)
    {
        Pen zone = Pen.Solid(0.12, Colour.Grey(150));
        foreach (SealedZone z in design.Zones)
        {
            scene.Shape(view.ToPage(Hatching.Lines(z.Reached, 45, 2 / view.Scale)), zone);
            scene.Shape(view.ToPage(z.Sealed), zone);
        }
        scene.Shape(view.ToPage(design.Part.Outer), Pen.Solid(0.25, Colour.Black));
        scene.Shape(design.Part.Cutouts.Select(view.ToPage), Pen.Solid(0.25, Colour.Black));
        foreach (MagnetPlace m in design.Magnets)
        {
            scene.Shape(Chain.Circle(view.ToPage(m.At), 2), Pen.Solid(0.3, Colour.Black), Colour.White);
            scene.Text("M", view.ToPage(m.At) - new Point2(0, 0.95), TypeStyle.Strong(2.7), Anchor.Middle);
        }
    }

    /// <summary>The path as runs of one band each; a run ends on the next one's start, and jumps between cuts are not drawn.</summary>
    private static IEnumerable<(Chain Run, int Band)> Runs(HoldingResult holding, Func<HoldSample, double> factor)
    {
        List<Segment> run = [];
        for (int i = 0; i + 1 < holding.Samples.Length; i++)
        {
            HoldSample a = holding.Samples[i];
            HoldSample b = holding.Samples[i + 1];
            int band = FactorScale.Band(factor(a));
            bool joined = a.Cut == b.Cut && a.At.DistanceTo(b.At) is > 0 and < 5;
            if (joined)
            {
                run.Add(Segment.Line(a.At, b.At));
            }
            if (run.Count > 0 && (!joined || FactorScale.Band(factor(b)) != band))
            {
                yield return (new Chain([.. run], false), band);
                run.Clear();
            }
        }
        if (run.Count > 0)
        {
            yield return (new Chain([.. run], false), FactorScale.Band(factor(holding.Samples[^1])));
        }
    }

    private static void Flag(Scene scene, HoldAnswer worst, IEnumerable<Point2> magnets, View view, Box2 box)
    {
        Point2 at = view.ToPage(worst.At);
        bool left = at.X > box.Middle.X;
        bool down = at.Y > box.Middle.Y;
        Point2 text = Free(at, left ? -9 : 9, down ? -9 : 8, [.. magnets.Select(view.ToPage)]);
        scene.Line(at, text, Pen.Solid(1.1, Colour.White));
        scene.Line(at, text, Pen.Solid(0.35, Colour.Black));
        scene.Shape(Chain.Circle(at, 2.1), Pen.Solid(0.6, Colour.Black), Colour.White);
        scene.Shape(Chain.Circle(at, 0.7), null, Colour.Black);
        TypeStyle type = TypeStyle.Strong(4.4);
        scene.Text(
            FactorScale.Text(worst.Factor),
            text + new Point2(left ? -0.8 : 0.8, -1.5),
            type,
            left ? Anchor.Right : Anchor.Left,
            0,
            halo: true
        );
    }

    /// <summary>The end of the flag's pole: as wished, or a little longer where the number would lie on a magnet.</summary>
    private static Point2 Free(Point2 at, double dx, double dy, Point2[] magnets)
    {
        Point2[] tries = [new(dx, dy), new(dx, 1.8 * dy), new(2 * dx, dy), new(dx, 0.2 * dy), new(2 * dx, 2 * dy)];
        Point2 middle = new(Math.Sign(dx) * 6, 0);
        return at + tries.FirstOrDefault(t => magnets.All(m => m.DistanceTo(at + t + middle) > 7.5), tries[0]);
    }

    private static Box2 World(FixtureDesign design)
    {
        Box2 b = Measure.Bounds(design.Part.Outer);
        return new Box2(b.MinX - 6, b.MinY - 6, b.MaxX + 6, b.MaxY + 6);
    }

    private static string Mode(HoldMode mode) =>
        mode switch
        {
            HoldMode.Slide => "slides",
            HoldMode.Lift => "lifts",
            HoldMode.Stop => "its stop gives way",
            HoldMode.Tip => "tips",
        };

    private static string N(double v) => v.ToString("0.#", CultureInfo.InvariantCulture);
}

using System.Globalization;
using FixtureGen.Model;
using FixtureGen.Output.Reports;
using FixtureGen.Output.Scenes;

namespace FixtureGen.Output.Pictures;

/// <summary>
/// The fixture from above: every feature in its own line kind with a legend, the blank's dimensions and the origin. Drawn in
/// true size, so that the SVG may be printed 1:1.
/// </summary>
public static class Preview
{
    private const double PixelsPerMm = 4;

    /// <summary>PNG bytes; the same on every machine.</summary>
    public static byte[] Png(FixtureDesign design, Job job) => SkiaDraw.Png(Draw(design, job), PixelsPerMm);

    /// <summary>SVG 1.1 text in millimetres; needs no font.</summary>
    public static string Svg(FixtureDesign design, Job job) =>
        SvgDraw.Svg(
            Draw(design, job),
            $"{job.Title}, fixture {job.FixtureId} revision {job.Revision.ToString(CultureInfo.InvariantCulture)}"
        );

    internal static Scene Draw(FixtureDesign design, Job job)
    {
        const double left = 24;
        const double bottom = 26;
        const double top = 22;
        const double legend = 90;
        const double size = 4;
        Box2 blank = design.Placement.BlankBox;
        Scene scene = new(left + blank.Width + legend, bottom + blank.Height + top);
        View view = new(1, new Point2(left - blank.MinX, bottom - blank.MinY), MirrorX: false);

        FixtureView picture = new(scene, view, size);
        picture.Everything(design, job);
        Marks.Stops(scene, view, job.Plate);
        Marks.Origin(scene, view.ToPage(new Point2(0, 0)), 16, size, mirrorX: false);
        Point2 a = view.ToPage(new Point2(blank.MinX, blank.MinY));
        Point2 b = view.ToPage(new Point2(blank.MaxX, blank.MinY));
        Point2 c = view.ToPage(new Point2(blank.MinX, blank.MaxY));
        Marks.Dimension(scene, a, b, 14, Marks.Length(blank.Width, job.DisplayUnit), size);
        Marks.Dimension(scene, a, c, -13, Marks.Length(blank.Height, job.DisplayUnit), size);

        double x = left + blank.Width + 8;
        Heading(scene, design, job, new Point2(left, scene.Height - 9));
        double y = Legend.Column(scene, picture.Used, new Point2(x, bottom + blank.Height), size);
        Facts(scene, design, job, new Point2(x, y - 8));
        return scene;
    }

    private static void Heading(Scene scene, FixtureDesign design, Job job, Point2 at)
    {
        double room = scene.Width - at.X - 8;
        string under = $"Fixture {job.FixtureId}, revision {Figures.Whole(job.Revision)}. Label: {design.Label}";
        scene.Text(job.Title, at, Typefaces.Shrunk(job.Title, TypeStyle.Strong(6), room));
        scene.Text(under, at - new Point2(0, 6.5), Typefaces.Shrunk(under, TypeStyle.Plain(4), room));
    }

    private static IEnumerable<string> Plugs(FixtureDesign design) =>
        design.SkimmedZ > design.FixtureHeight
            ?
            [
                FormattableString.Invariant(
                    $"the plug stays up to there, its block's face lies at Z {design.FixtureHeight:0.###} mm"
                ),
            ]
            : [];

    private static void Facts(Scene scene, FixtureDesign design, Job job, Point2 at)
    {
        TypeStyle type = TypeStyle.Plain(3.6);
        double room = scene.Width - at.X - 4;
        string[] facts =
        [
            $"Blank: {job.Blank.Description}",
            $"thickness {Marks.Length(design.RawThickness, job.DisplayUnit)}",
            $"skimmed to Z {design.SkimmedZ.ToString("0.###", CultureInfo.InvariantCulture)} mm above the plate",
            .. Plugs(design),
            "X0 Y0 is the plate's origin, Z0 its face",
            job.HoldBy == HoldBy.Magnets
                ? $"{Figures.Count(design.Magnets.Length, "magnet")} alone hold the shell, no seal"
                : $"{Figures.Count(design.Magnets.Length, "magnet")}, {Figures.Count(design.Zones.Length, "sealed zone")}",
            "Triangles: edge stops of the raw blank",
        ];
        string[] lines = [.. facts.SelectMany(f => Typefaces.Wrap(f, type, room))];
        for (int i = 0; i < lines.Length; i++)
        {
            scene.Text(lines[i], at - new Point2(0, i * 6), type);
        }
    }
}

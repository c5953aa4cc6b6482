using System.Collections.Immutable;
using System.Globalization;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.App.Page.Layout;

/// <summary>The block cut along a line: what is solid between underside and face, the shell above, and the depth chain's figures.</summary>
internal static class SectionCut
{
    private const double Step = 0.25;
    private const int MostSamples = 4000;

    /// <summary>
    /// Points plate frame, mm; a sample every 0.25 mm, 4000 at most. Solid is outlines of (way along the line, Z),
    /// shellRuns stretches of the way, notes the floors left.
    /// </summary>
    public static SectionAnswer Cut(FixtureDesign design, Job job, Point2 from, Point2 to)
    {
        double length = from.DistanceTo(to);
        int count = (int)Math.Clamp(length / Step, 2, MostSamples);
        ImmutableArray<Removal> removals = [.. design.Removals];
        (double S, double Top, double Bottom, string Feature)[] cut =
        [
            .. Enumerable
                .Range(0, count + 1)
                .Select(i => Sample(design, removals, from, to, length * i / count, length)),
        ];
        return new SectionAnswer(
            design.FixtureHeight,
            job.Shell.Thickness,
            Solid(cut),
            Shell(design, from, to, length, count),
            Notes(cut, job.DisplayUnit)
        );
    }

    private static (double, double, double, string) Sample(
        FixtureDesign design,
        ImmutableArray<Removal> removals,
        Point2 from,
        Point2 to,
        double s,
        double length
    )
    {
        Point2 p = from + ((to - from) * (length == 0 ? 0 : s / length));
        Box2 b = design.Placement.BlankBox;
        if (p.X < b.MinX || p.X > b.MaxX || p.Y < b.MinY || p.Y > b.MaxY)
        {
            return (s, 0, 0, "");
        }
        double top = design.FixtureHeight;
        double bottom = 0;
        string feature = "";
        foreach (Removal r in removals.Where(r => !r.MakesFace && Inside.Contains(r.Area, p)))
        {
            if (r.Setup == Setup.Underside)
            {
                bottom = Math.Max(bottom, r.TopZ);
            }
            else if (r.FloorZ < top)
            {
                (top, feature) = (r.FloorZ, r.Feature);
            }
        }
        return (s, top, bottom, feature);
    }

    private static double[][][] Solid((double S, double Top, double Bottom, string Feature)[] cut)
    {
        List<double[][]> pieces = [];
        List<(double S, double Top, double Bottom)> run = [];
        void Close()
        {
            if (run.Count > 1)
            {
                IEnumerable<(double S, double Z)> points = run.Select(r => (r.S, r.Top))
                    .Concat(run.AsEnumerable().Reverse().Select(r => (r.S, r.Bottom)));
                pieces.Add([.. points.Select(q => new[] { Math.Round(q.S, 3), Math.Round(q.Z, 3) })]);
            }
            run.Clear();
        }
        foreach ((double s, double top, double bottom, string _) in cut)
        {
            if (top - bottom <= 1e-9)
            {
                Close();
                continue;
            }
            if (run.Count > 0 && (run[^1].Top != top || run[^1].Bottom != bottom))
            {
                double half = (run[^1].S + s) / 2;
                run.Add((half, run[^1].Top, run[^1].Bottom));
                run.Add((half, top, bottom));
            }
            run.Add((s, top, bottom));
        }
        Close();
        return [.. pieces];
    }

    private static double[][] Shell(FixtureDesign design, Point2 from, Point2 to, double length, int count)
    {
        Region part = new(design.Part.Outer, design.Part.Cutouts);
        List<double[]> runs = [];
        double? start = null;
        for (int i = 0; i <= count + 1; i++)
        {
            double s = length * i / count;
            bool on = i <= count && Inside.Contains(part, from + ((to - from) * (s / Math.Max(length, 1e-9))));
            if (on && start is null)
            {
                start = s;
            }
            else if (!on && start is { } begun)
            {
                runs.Add([Math.Round(begun, 3), Math.Round(s, 3)]);
                start = null;
            }
        }
        return [.. runs];
    }

    /// <summary>Floor left under each stretch that was cut, in the job's unit.</summary>
    private static SectionNote[] Notes((double S, double Top, double Bottom, string Feature)[] cut, LengthUnit unit)
    {
        List<SectionNote> notes = [];
        int i = 0;
        while (i < cut.Length)
        {
            int j = i;
            while (
                j + 1 < cut.Length
                && cut[j + 1].Feature == cut[i].Feature
                && cut[j + 1].Top == cut[i].Top
                && cut[j + 1].Bottom == cut[i].Bottom
            )
            {
                j++;
            }
            if (cut[i].Feature.Length > 0 && cut[j].S - cut[i].S > 1.5)
            {
                double left = Math.Max(0, cut[i].Top - cut[i].Bottom);
                notes.Add(
                    new(
                        Math.Round((cut[i].S + cut[j].S) / 2, 2),
                        Math.Round(cut[i].Top, 2),
                        left <= 0 ? "through" : Shown(left, unit)
                    )
                );
            }
            i = j + 1;
        }
        return [.. notes];
    }

    private static string Shown(double mm, LengthUnit unit) =>
        unit == LengthUnit.Inch
            ? (mm / Units.MmPerInch).ToString("0.00", CultureInfo.InvariantCulture)
            : mm.ToString("0.0", CultureInfo.InvariantCulture);
}

#:project ../src/FixtureGen/FixtureGen.csproj
#:property RestorePackagesWithLockFile=false
#:property PublishAot=false

// Draws the demo outlines beside this file: dotnet run outlines/draw.cs
// Each is there for a difficulty of its own, said before it. Lengths mm; the sheet's unit is what the drawing is in.
using System.Collections.Immutable;
using System.Runtime.CompilerServices;
using FixtureGen.Drawing.Writing;
using FixtureGen.Geometry;
using FixtureGen.Model;

foreach ((string name, DxfSheet sheet) in Outlines.All)
{
    string path = Path.Combine(Outlines.Folder(), name + ".dxf");
    File.WriteAllBytes(path, DxfWriter.Write(sheet));
    Console.WriteLine(path);
}

internal static class Outlines
{
    private const string Outline = "OUTLINE";
    private const string Cutout = "CUTOUT";

    public static IEnumerable<(string Name, DxfSheet Sheet)> All =>
        [
            ("pruner-sheath", PrunerSheath()),
            ("meter-cradle", MeterCradle()),
            ("tape-cradle", TapeCradle()),
            ("trowel-sheath", TrowelSheath()),
            ("stake-holder", StakeHolder()),
            ("dibber-sheath", DibberSheath()),
            ("prism-pouch", PrismPouch()),
            ("level-tray", LevelTray()),
            ("label-clip", LabelClip()),
            ("twine-lid", TwineLid()),
            ("plumb-pouch", PlumbPouch()),
            ("auger-cradle", AugerCradle()),
            ("hook-cradle", HookCradle()),
            ("reel-cover", ReelCover()),
            ("seed-scoop", SeedScoop()),
            ("tip-guard", TipGuard()),
        ];

    public static string Folder([CallerFilePath] string here = "") => Path.GetDirectoryName(here)!;

    // Concave back, large and small arcs.
    private static DxfSheet PrunerSheath() =>
        Mm(
            new DxfLoop(
                Outline,
                Shape.Rounded(
                    (0, 6, 10),
                    (70, 0, 40),
                    (150, 22, 16),
                    (154, 64, 16),
                    (100, 72, 24),
                    (62, 58, 24),
                    (4, 74, 12)
                )
            )
        );

    // For the plate whose bushings have no room below them: its pin holes are bored from the underside, in two setups.
    private static DxfSheet HookCradle() =>
        Mm(
            new DxfLoop(
                Outline,
                Shape.Rounded((0, 0, 14), (132, 0, 14), (132, 70, 30), (88, 92, 20), (40, 92, 20), (0, 66, 26))
            )
        );

    // A dome that rises from a flange: the seal goes round it, a strap slot at either end, words on its top.
    private static DxfSheet ReelCover() =>
        Mm(
            new DxfLoop(Outline, Shape.Rounded((0, 0, 16), (165, 0, 16), (165, 125, 16), (0, 125, 16))),
            new DxfLoop(
                "FORM",
                Shape.Rounded((27.5, 27.5, 20), (137.5, 27.5, 20), (137.5, 97.5, 20), (27.5, 97.5, 20))
            ),
            new DxfLoop(Cutout, Shape.Rounded((7, 52, 2.4), (12, 52, 2.4), (12, 73, 2.4), (7, 73, 2.4))),
            new DxfLoop(Cutout, Shape.Rounded((153, 52, 2.4), (158, 52, 2.4), (158, 73, 2.4), (153, 73, 2.4))),
            new DxfText("ENGRAVE", "REEL 50 M", new Point2(58, 58), 8, 0)
        );

    // A bowl deeper than a sheet of 3/4 in is thick: nested in a block of 1-1/2 in.
    private static DxfSheet SeedScoop() =>
        Mm(
            new DxfLoop(
                Outline,
                Shape.Rounded((0, 0, 18), (158, 0, 18), (158, 116, 40), (100, 128, 60), (58, 128, 60), (0, 116, 40))
            ),
            new DxfLoop("FORM", Shape.Rounded((44, 32, 16), (114, 32, 16), (114, 90, 20), (44, 90, 20)))
        );

    // An inch drawing in lines and arcs: a window whose slug is tabbed, two holes near the corners that are milled away.
    private static DxfSheet MeterCradle()
    {
        double inch = Units.MmPerInch;
        Contour outline = Shape.Rounded(
            (0, 0, 12.7),
            (5.6 * inch, 0, 12.7),
            (5.6 * inch, 3.6 * inch, 12.7),
            (0, 3.6 * inch, 12.7)
        );
        Contour window = Shape.Rounded(
            (1.9 * inch, 1.2 * inch, 8),
            (3.7 * inch, 1.2 * inch, 8),
            (3.7 * inch, 2.4 * inch, 8),
            (1.9 * inch, 2.4 * inch, 8)
        );
        return Sheet(
            LengthUnit.Inch,
            new DxfSegments(Outline, outline.Segments),
            new DxfSegments(Cutout, window.Segments),
            new DxfCircle(Cutout, new Point2(0.5 * inch, 0.5 * inch), 4),
            new DxfCircle(Cutout, new Point2(5.1 * inch, 3.1 * inch), 4)
        );
    }

    // A round cup in the middle: the form goes down into the block and finds the shell's place.
    private static DxfSheet TapeCradle()
    {
        Point2 centre = new(0, 0);
        Point2 right = new(39, -52);
        Point2 left = new(-39, -52);
        Contour outline = new([Segment.Arc(right, left, centre, true), Segment.Line(left, right)]);
        Contour cup = Contours.RoundedRectangle(new Box2(-22, -15, 22, 15), 8);
        return Mm(new DxfLoop(Outline, Shape.Filleted(outline, 10)), new DxfLoop("FORM", cup));
    }

    // Too wide to stand between the pins and too tall to stand above them: must be turned a quarter to fit.
    private static DxfSheet TrowelSheath() =>
        Mm(
            new DxfLoop(
                Outline,
                Shape.Rounded((0, 0, 12), (122, 0, 12), (124, 104, 60), (82, 194, 18), (40, 194, 18), (-2, 104, 60))
            )
        );

    // Two slots open to the edge leave three fingers.
    private static DxfSheet StakeHolder() =>
        Mm(
            new DxfSegments(
                Outline,
                Shape
                    .Rounded(
                        (0, 0, 10),
                        (136, 0, 10),
                        (136, 94, 10),
                        (95.5, 94, 4),
                        (95.5, 58, 4.4),
                        (86.5, 58, 4.4),
                        (86.5, 94, 4),
                        (49.5, 94, 4),
                        (49.5, 58, 4.4),
                        (40.5, 58, 4.4),
                        (40.5, 94, 4),
                        (0, 94, 10)
                    )
                    .Segments
            )
        );

    // A closed spline, and an ellipse near its end.
    private static DxfSheet DibberSheath() =>
        Mm(
            Shape.ClosedSpline(
                Outline,
                (0, 34),
                (2, -8),
                (46, -20),
                (110, -14),
                (158, 2),
                (170, 34),
                (158, 66),
                (110, 82),
                (46, 88),
                (2, 76)
            ),
            new DxfEllipse(Cutout, new Point2(142, 34), new Point2(0, 11), 0.7, 0, 2 * Math.PI)
        );

    // Two rooms and a neck too narrow for a seal: two zones.
    private static DxfSheet PrismPouch() =>
        Mm(
            new DxfLoop(
                Outline,
                Shape.Rounded(
                    (0, 0, 14),
                    (68, 0, 14),
                    (72, 27, 10),
                    (96, 27, 10),
                    (100, 0, 14),
                    (168, 0, 14),
                    (168, 78, 14),
                    (100, 78, 14),
                    (96, 51, 10),
                    (72, 51, 10),
                    (68, 78, 14),
                    (0, 78, 14)
                )
            )
        );

    // Too long for an 8.5 in blank.
    private static DxfSheet LevelTray() =>
        Mm(
            new DxfLoop(
                Outline,
                Shape.Rounded(
                    (0, 0, 16),
                    (230, 0, 16),
                    (230, 120, 16),
                    (160, 120, 8),
                    (152, 100, 14),
                    (78, 100, 14),
                    (70, 120, 8),
                    (0, 120, 16)
                )
            )
        );

    // Tiny.
    private static DxfSheet LabelClip() =>
        Mm(new DxfLoop(Outline, Shape.Rounded((0, 0, 12), (80, 0, 12), (80, 62, 12), (0, 62, 12))));

    // So small that no cord leaves room for a magnet: magnets alone hold it.
    private static DxfSheet TipGuard() =>
        Mm(
            new DxfLoop(
                Outline,
                Shape.Rounded((0, 2, 6), (36, 0, 12), (54, 9, 7), (54, 23, 7), (36, 32, 12), (0, 30, 6))
            )
        );

    // Engraved words and strokes; the drawing fixes the magnets.
    private static DxfSheet TwineLid() =>
        Mm(
            new DxfLoop(
                Outline,
                Shape.Rounded(
                    (26, 0, 8),
                    (110, 0, 8),
                    (136, 26, 8),
                    (136, 84, 8),
                    (110, 110, 8),
                    (26, 110, 8),
                    (0, 84, 8),
                    (0, 26, 8)
                )
            ),
            new DxfText("ENGRAVE", "TWINE 3 MM", new Point2(45, 52), 7, 0),
            new DxfPath("ENGRAVE", new OpenPath([Segment.Line(new(40, 46), new(96, 46))])),
            new DxfPoint("MAGNET", new Point2(30, 30)),
            new DxfPoint("MAGNET", new Point2(106, 30)),
            new DxfPoint("MAGNET", new Point2(106, 80)),
            new DxfPoint("MAGNET", new Point2(30, 80))
        );

    // A drop: one spline from flank to flank round the point, arcs below. Inches.
    private static DxfSheet PlumbPouch() =>
        Sheet(
            LengthUnit.Inch,
            new DxfSegments(Outline, [Segment.Arc(new(-48, 0), new(48, 0), new(0, 0), true)]),
            new DxfSpline(
                Outline,
                3,
                [0, 0, 0, 0, 1, 2, 3, 4, 4, 4, 4],
                [new(48, 0), new(48, 24), new(40, 62), new(0, 100), new(-40, 62), new(-48, 24), new(-48, 0)]
            )
        );

    // Drawn aslant: fits only when it is turned back. The slot within has a seal of its own.
    private static DxfSheet AugerCradle()
    {
        Pose aslant = new(0, 0, 45);
        Contour outline = Shape.Rounded((0, 0, 12), (200, 0, 12), (200, 110, 12), (0, 110, 12));
        Contour slot = Shape.Rounded((62, 50, 4.9), (138, 50, 4.9), (138, 60, 4.9), (62, 60, 4.9));
        return Mm(
            new DxfLoop(Outline, Transform.Apply(aslant, outline)),
            new DxfLoop(Cutout, Transform.Apply(aslant, slot))
        );
    }

    private static DxfSheet Mm(params DxfItem[] items) => Sheet(LengthUnit.Millimetre, items);

    private static DxfSheet Sheet(LengthUnit unit, params DxfItem[] items) =>
        new(
            unit,
            [.. items.Select(i => i.Layer).Distinct().Select((layer, i) => new DxfLayer(layer, 7 - i))],
            [.. items]
        );
}

internal static class Shape
{
    /// <summary>A counter-clockwise polygon whose every corner (x, y, radius) is rounded by a tangent arc.</summary>
    public static Contour Rounded(params (double X, double Y, double R)[] corners)
    {
        int n = corners.Length;
        var arcs = new Segment[n];
        for (int i = 0; i < n; i++)
        {
            (double x, double y, double r) = corners[i];
            Point2 p = new(x, y);
            arcs[i] = Fillet(At(corners[(i + n - 1) % n]), p, At(corners[(i + 1) % n]), r);
        }
        var segments = ImmutableArray.CreateBuilder<Segment>();
        for (int i = 0; i < n; i++)
        {
            segments.Add(arcs[i]);
            segments.Add(Segment.Line(arcs[i].End, arcs[(i + 1) % n].Start));
        }
        return new Contour(segments.ToImmutable());
    }

    /// <summary>An arc that meets a chord at both ends (arc first, then the chord), the two corners rounded.</summary>
    public static Contour Filleted(Contour bow, double r)
    {
        Segment arc = bow.Segments[0];
        Segment chord = bow.Segments[1];
        double y = chord.Start.Y + r;
        double inner = arc.Radius - r;
        double x = Math.Sqrt((inner * inner) - (y * y));
        Point2 right = arc.Centre + new Point2(x, y);
        Point2 left = arc.Centre + new Point2(-x, y);
        Point2 onRight = arc.Centre + (arc.Radius / inner * (right - arc.Centre));
        Point2 onLeft = arc.Centre + (arc.Radius / inner * (left - arc.Centre));
        Point2 from = new(left.X, chord.Start.Y);
        Point2 to = new(right.X, chord.Start.Y);
        return new Contour([
            Segment.Arc(onRight, onLeft, arc.Centre, true),
            Segment.Arc(onLeft, from, left, true),
            Segment.Line(from, to),
            Segment.Arc(to, onRight, right, true),
        ]);
    }

    /// <summary>The closed cubic B-spline of a control polygon, written clamped: one Bezier piece for each side.</summary>
    public static DxfSpline ClosedSpline(string layer, params (double X, double Y)[] polygon)
    {
        int n = polygon.Length;
        Point2 P(int i) => new(polygon[(i + n) % n].X, polygon[(i + n) % n].Y);
        List<Point2> points = [(1.0 / 6) * (P(-1) + (4 * P(0)) + P(1))];
        List<double> knots = [0, 0, 0, 0];
        for (int i = 0; i < n; i++)
        {
            points.Add((1.0 / 3) * ((2 * P(i)) + P(i + 1)));
            points.Add((1.0 / 3) * (P(i) + (2 * P(i + 1))));
            points.Add(i == n - 1 ? points[0] : (1.0 / 6) * (P(i) + (4 * P(i + 1)) + P(i + 2)));
            knots.AddRange([i + 1, i + 1, i + 1]);
        }
        knots.Add(n);
        return new DxfSpline(layer, 3, [.. knots], [.. points]);
    }

    private static Point2 At((double X, double Y, double R) corner) => new(corner.X, corner.Y);

    private static Segment Fillet(Point2 before, Point2 p, Point2 after, double r)
    {
        Point2 a = (1 / before.DistanceTo(p)) * (before - p);
        Point2 b = (1 / after.DistanceTo(p)) * (after - p);
        double half = Math.Acos(Math.Clamp(a.Dot(b), -1, 1)) / 2;
        double along = r / Math.Tan(half);
        bool convex = (p - before).Cross(after - p) > 0;
        Point2 middle = a + b;
        Point2 centre = p + ((r / Math.Sin(half) / middle.Length) * middle);
        return Segment.Arc(p + (along * a), p + (along * b), centre, convex);
    }
}

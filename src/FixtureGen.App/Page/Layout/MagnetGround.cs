using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using FixtureGen.App.Page.Serving;
using FixtureGen.Holding.Magnets;
using FixtureGen.Model;
using FixtureGen.Shop.Jobs;
using FixtureGen.Solve;

namespace FixtureGen.App.Page.Layout;

/// <summary>Where magnets may stand, asked of the rules that choose their places. Plate frame, mm.</summary>
internal static class MagnetGround
{
    private const double Step = 0.5;
    private const double Reach = 120;
    private const int Ways = 72;
    private const double Sharp = 0.005;
    private const double Cell = 2;

    /// <summary>The layout with these magnets at the nearest place where each may stand.</summary>
    public static PageAnswer Snap(Laid laid, LayoutAsk ask, int[] which)
    {
        MagnetClearances rules = new(laid.Begun, laid.Job, new PairOnBlock(laid.Job));
        ImmutableArray<MagnetPlace> magnets = ask.Magnets;
        List<string> said = [];
        foreach (int i in which.Where(i => !magnets[i].Locked && !magnets[i].FromDrawing).Distinct())
        {
            string name = string.Create(CultureInfo.InvariantCulture, $"Magnet {i + 1}");
            Point2[] others = [.. magnets.Where((_, j) => j != i).Select(m => m.At)];
            if (rules.Allows(Rounded(magnets[i].At, laid), others))
            {
                said.Add($"{name} may stand where it is");
            }
            else if (Nearest(magnets[i].At, p => rules.Allows(Rounded(p, laid), others)) is { } at)
            {
                at = Rounded(at, laid);
                said.Add($"{name} was moved by {LayoutFacts.Amount(at.DistanceTo(magnets[i].At), laid.Job)}");
                magnets = magnets.SetItem(i, magnets[i] with { At = at });
            }
            else
            {
                said.Add($"{name} has no place within {LayoutFacts.Amount(Reach, laid.Job)}");
            }
        }
        string message =
            said.Count > 0 ? string.Join("; ", said) + "." : "What was chosen is locked or stands in the drawing.";
        return PageAnswer.Json(
            200,
            new PlacesAnswer(LayoutFacts.Magnets(magnets), message),
            LayoutJson.Default.PlacesAnswer
        );
    }

    /// <summary>The cells in whose middle the magnet may stand, row by row.</summary>
    public static PageAnswer Draw(Laid laid, LayoutAsk ask, int which)
    {
        MagnetClearances rules = new(laid.Begun, laid.Job, new PairOnBlock(laid.Job));
        Point2[] others = [.. ask.Magnets.Where((_, j) => j != which).Select(m => m.At)];
        Box2 box = laid.Design.Placement.BlankBox;
        (int columns, int rows) = ((int)(box.Width / Cell), (int)(box.Height / Cell));
        string[] lines = new string[rows];
        Parallel.For(
            0,
            rows,
            r =>
            {
                StringBuilder path = new();
                double y = box.MinY + ((r + 0.5) * Cell);
                int from = -1;
                for (int c = 0; c <= columns; c++)
                {
                    bool may = c < columns && rules.Allows(new Point2(box.MinX + ((c + 0.5) * Cell), y), others);
                    if (may && from < 0)
                    {
                        from = c;
                    }
                    else if (!may && from >= 0)
                    {
                        path.Append(
                            CultureInfo.InvariantCulture,
                            $"M{box.MinX + (from * Cell):0.##} {y - (Cell / 2):0.##}h{(c - from) * Cell:0.##}v{Cell:0.##}h{(from - c) * Cell:0.##}z"
                        );
                        from = -1;
                    }
                }
                lines[r] = path.ToString();
            }
        );
        return PageAnswer.Json(200, new GroundAnswer(string.Concat(lines)), LayoutJson.Default.GroundAnswer);
    }

    private static Point2 Rounded(Point2 p, Laid laid) => WrittenPlace.OnPlate(p, laid.Design.Placement.Pose, laid.Job);

    /// <summary>The nearest place that is allowed, found in rings and sharpened along the way there; null where there is none in reach.</summary>
    private static Point2? Nearest(Point2 from, Func<Point2, bool> allows)
    {
        Point2 At(int way, double r)
        {
            (double sin, double cos) = Math.SinCos(2 * Math.PI * way / Ways);
            return from + new Point2(r * cos, r * sin);
        }
        for (double r = Step; r <= Reach; r += Step)
        {
            int[] ways = [.. Enumerable.Range(0, Ways).Where(w => allows(At(w, r)))];
            if (ways.Length > 0)
            {
                return ways.Select(w => At(w, Sharpened(q => allows(At(w, q)), r - Step, r))).MinBy(from.DistanceTo);
            }
        }
        return null;
    }

    private static double Sharpened(Func<double, bool> allows, double no, double yes)
    {
        while (yes - no > Sharp)
        {
            double middle = (no + yes) / 2;
            (no, yes) = allows(middle) ? (no, middle) : (middle, yes);
        }
        return yes;
    }
}

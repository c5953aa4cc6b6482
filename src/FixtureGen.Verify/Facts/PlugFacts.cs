using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Verify.Shape;

namespace FixtureGen.Verify.Facts;

/// <summary>
/// A plug against its form as drawn: at every height it lies inside the hollow by the running clearance, its foot is no looser than
/// locates, its top is as high as carries, and grooves over the top let the air out.
/// </summary>
internal static class PlugFacts
{
    /// <summary>How much looser than the clearance the foot may be and still find the shell's place, mm (common practice, no source).</summary>
    private const double Loose = 0.3;

    public static void Check(FactRun facts, FormRegion form, ImmutableArray<Piece> edge)
    {
        Area inside = new(edge);
        PieceBins bins = new(edge, 4);
        Removal[] levels = [.. facts.Cuts(FeatureKind.Plug).OrderBy(r => r.FloorZ)];
        double clearance = facts.Job.Rules.RunningClearance;
        double top = 0;
        for (int k = 0; k < levels.Length; k++)
        {
            ImmutableArray<Piece> island =
            [
                .. levels[k]
                    .Area.SelectMany(a => a.Holes)
                    .Where(h => inside.Contains(h.Segments[0].Start))
                    .SelectMany(h => Spread.PiecesOf(h.Segments)),
            ];
            if (island.IsEmpty)
            {
                break;
            }
            top = k + 1 < levels.Length ? levels[k + 1].FloorZ : levels[k].TopZ;
            double room = Hollow(facts, form, inside, top) + clearance;
            Spread off = Spread.Find(island, bins, room, k == 0 ? room : double.MaxValue);
            if (off.Least < room - Fits.Place)
            {
                FactFindings.Wall(facts, "plug", off.LeastAt, off.Least - room, Fits.Place, Setup.Top);
            }
            if (k == 0 && off.Greatest > room + Loose)
            {
                FactFindings.Wall(facts, "plug", off.GreatestAt, off.Greatest - room, Loose, Setup.Top);
            }
        }
        Height(facts, form, inside, top);
        Vents(facts, inside);
    }

    /// <summary>How far the hollow's wall lies inside the form's edge at a height, mm.</summary>
    private static double Hollow(FactRun facts, FormRegion form, Area inside, double z)
    {
        double up = z - facts.Face;
        if (form.Top != FormTop.Cap)
        {
            return up * Math.Tan(form.DraftDeg * Math.PI / 180);
        }
        double foot = inside.Bounds.Width / 2;
        double sphere = ((foot * foot) + (form.Height * form.Height)) / (2 * form.Height);
        double above = up - form.Height + sphere;
        return foot - Math.Sqrt(Math.Max(0, (sphere * sphere) - (above * above)));
    }

    private static void Height(FactRun facts, FormRegion form, Area inside, double top)
    {
        double most = facts.Face + form.Height - facts.Job.Rules.RunningClearance;
        double least = form.Top == FormTop.Cap ? facts.Face + (form.Height / 2) : most;
        double off = top > most ? top - most : Math.Min(0, top - least);
        if (Math.Abs(off) > Fits.SetFloor)
        {
            FactFindings.Floor(facts, "the top of the plug", inside.Bounds.Middle, off, Fits.SetFloor, Setup.Top);
        }
    }

    private static void Vents(FactRun facts, Area inside)
    {
        if (!facts.Cuts(FeatureKind.PlugVent).Any(v => inside.Contains(HoleFacts.Middle(v))))
        {
            FactFindings.Missing(facts, "the vents over a plug", inside.Bounds.Middle, Setup.Top);
        }
    }
}

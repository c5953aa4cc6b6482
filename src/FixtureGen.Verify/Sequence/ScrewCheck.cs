using System.Globalization;
using System.Text.RegularExpressions;
using FixtureGen.Model;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Sequence;

/// <summary>
/// A comment that says how long the bolts are to be: a shorter screw holds by less than its diameter of thread, a longer one comes
/// through the plate. What is said in tenths may be a tenth off.
/// </summary>
internal static partial class ScrewCheck
{
    public static void Check(Run run, Spoken spoken)
    {
        if (Reach(run) is not { } reach)
        {
            return;
        }
        foreach ((Match said, int line) in spoken.Find(Lengths()))
        {
            double shortest = double.Parse(said.Groups[1].ValueSpan, CultureInfo.InvariantCulture);
            double longest = double.Parse(said.Groups[2].ValueSpan, CultureInfo.InvariantCulture);
            if (
                longest < shortest
                || shortest < reach.Shortest - JudgeRules.ScrewTenth
                || longest > reach.Longest + JudgeRules.ScrewTenth
            )
            {
                run.Log.Error(
                    "screw-length",
                    line,
                    $"the comment asks for bolts {shortest:0.0} to {longest:0.0} mm long; one diameter of thread takes {reach.Shortest:0.0} mm, and above {reach.Longest:0.0} mm they come through the plate",
                    $"Write {reach.Shortest:0.0} TO {reach.Longest:0.0} MM LONG"
                );
            }
        }
    }

    /// <summary>From the block's own seats, the plate's reliefs and its thickness; null where the design has no bolts.</summary>
    private static (double Shortest, double Longest)? Reach(Run run)
    {
        HoleFeature[] holes = [.. run.Design.Features.OfType<HoleFeature>()];
        HoleFeature[] bolts = [.. holes.Where(h => h.Kind == FeatureKind.BoltHole)];
        double[] seats = [.. holes.Where(h => h.Kind == FeatureKind.Counterbore).Select(h => h.FloorZ)];
        if (bolts.Length == 0 || seats.Length == 0)
        {
            return null;
        }
        double relief = 0;
        foreach (HoleFeature bolt in bolts)
        {
            PlateOpening? under = run.Job.Plate.Bolts.MinBy(o => o.At.DistanceTo(bolt.At));
            relief = Math.Max(relief, under?.ReliefDepth ?? 0);
        }
        Screw screw = run.Job.Bolt;
        double held = seats.Max() + screw.WasherThickness;
        return (held + relief + screw.Body, held + run.Job.Plate.Thickness - screw.Pitch);
    }

    [GeneratedRegex(@"(\d+(?:\.\d+)?)\s+TO\s+(\d+(?:\.\d+)?)\s+MM\s+LONG", RegexOptions.CultureInvariant)]
    private static partial Regex Lengths();
}

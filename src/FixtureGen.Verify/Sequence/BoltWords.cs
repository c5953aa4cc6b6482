using System.Globalization;
using System.Text.RegularExpressions;
using FixtureGen.Model;
using FixtureGen.Verify.Reading;
using FixtureGen.Verify.Runs;

namespace FixtureGen.Verify.Sequence;

/// <summary>
/// What a comment says of the bolts against the plate and the screw: how many, which, what thread, how tight, how far in. Threads are
/// M and the diameter in mm (ISO 261), or fraction and turns an inch (ASME B1.1).
/// </summary>
internal sealed partial class BoltWords(Run run, Spoken spoken)
{
    private const double NmPerLbfIn = 0.112985;
    private const double InchesPerFoot = 12;

    /// <summary>What is written in tenths, mm or N.m.</summary>
    private const double HalfTenth = 0.06;

    private readonly Screw _screw = run.Job.Bolt;

    public void Check()
    {
        foreach ((string text, int from) in spoken.Paragraphs())
        {
            if (text.Contains("BOLT", StringComparison.Ordinal) || text.Contains("SCREW", StringComparison.Ordinal))
            {
                Count(text, from);
                Names(text, from);
                Thread(text, from);
                Tightness(text, from);
                Depth(text, from);
            }
        }
    }

    private void Count(string text, int from)
    {
        int bolts = run.Design.Features.OfType<HoleFeature>().Count(h => h.Kind == FeatureKind.BoltHole);
        int wanted = bolts > 0 ? bolts : run.Job.Plate.Bolts.Count();
        foreach (Match said in Counts().Matches(text).Where(_ => wanted > 0))
        {
            if (!int.TryParse(said.Groups[1].ValueSpan, CultureInfo.InvariantCulture, out int count) || count != wanted)
            {
                False(
                    from + said.Index,
                    $"the comment counts {Echo.Short(said.Groups[1].Value)} bolts, the block has holes for {wanted}"
                );
            }
        }
    }

    private void Names(string text, int from)
    {
        string[] known = [.. run.Job.Plate.Bolts.Select(b => b.Name.ToUpperInvariant()).Order(StringComparer.Ordinal)];
        foreach (Match said in NamesSaid().Matches(text))
        {
            string[] names = [.. Blanks().Split(said.Groups[1].Value.Trim()).Order(StringComparer.Ordinal)];
            bool asks = names.Intersect(known, StringComparer.Ordinal).Any();
            if (asks && !names.SequenceEqual(known, StringComparer.Ordinal))
            {
                False(
                    from + said.Index,
                    $"the comment names the bolts {Echo.Short(string.Join(' ', names))}, the plate has {Echo.Short(string.Join(' ', known))}"
                );
            }
        }
    }

    private void Thread(string text, int from)
    {
        foreach (Match said in Metric().Matches(text))
        {
            Size(from + said.Index, said.Value, Spoken.Number(said.Groups[1]), 0);
        }
        foreach (Match said in Unified().Matches(text))
        {
            double body = Spoken.Number(said.Groups[1]) / Spoken.Number(said.Groups[2]) * Units.MmPerInch;
            Size(from + said.Index, said.Value, body, Units.MmPerInch / Spoken.Number(said.Groups[3]));
        }
    }

    private void Size(int index, string said, double body, double pitch)
    {
        bool right =
            Math.Abs(body - _screw.Body) <= HalfTenth
            && (pitch == 0 || Math.Abs(pitch - _screw.Pitch) <= HalfTenth / 2);
        if (!right)
        {
            False(
                index,
                $"the comment asks for a thread {Echo.Short(said)}, the plate takes {_screw.Body:0.##} mm with a pitch of {_screw.Pitch:0.##} mm"
            );
        }
    }

    private void Tightness(string text, int from)
    {
        foreach (Match said in Torques().Matches(text))
        {
            double nm =
                Spoken.Number(said.Groups[1])
                * said.Groups[2].Value[0] switch
                {
                    'N' => 1,
                    _ => NmPerLbfIn
                        * (said.Groups[2].Value.Contains("FT", StringComparison.Ordinal) ? InchesPerFoot : 1),
                };
            if (Math.Abs(nm - _screw.TorqueNm) > HalfTenth + (0.02 * _screw.TorqueNm))
            {
                False(
                    from + said.Index,
                    $"the comment asks for {nm:0.0} N.m, the bolts take {_screw.TorqueNm:0.0} N.m"
                );
            }
        }
    }

    private void Depth(string text, int from)
    {
        foreach (Match said in Keys().Matches(text))
        {
            if (Spoken.Number(said.Groups[1]) < _screw.KeyEngagement - HalfTenth)
            {
                False(
                    from + said.Index,
                    $"the comment puts the key {said.Groups[1].Value} mm into the head, it wants {_screw.KeyEngagement:0.0} mm"
                );
            }
        }
        foreach (Match said in Turns().Matches(text))
        {
            if (Spoken.Number(said.Groups[1]) * _screw.Pitch < _screw.Body - _screw.Pitch)
            {
                False(
                    from + said.Index,
                    $"the comment asks for {said.Groups[1].Value} turns in the thread, a diameter is {_screw.Body / _screw.Pitch:0.0}"
                );
            }
        }
    }

    private void False(int index, Text message) =>
        run.Log.Error(
            "operator-line-false",
            spoken.LineAt(index),
            message,
            "Write what the shop's own file of the screw and the plate say"
        );

    [GeneratedRegex(@"(?<![\w.\-/])(\d+)\s+BOLTS\b", RegexOptions.CultureInvariant)]
    private static partial Regex Counts();

    [GeneratedRegex(@"BOLTS\s*[\[(]([^\])|]*)[\])]", RegexOptions.CultureInvariant)]
    private static partial Regex NamesSaid();

    [GeneratedRegex(@"\s+", RegexOptions.CultureInvariant)]
    private static partial Regex Blanks();

    [GeneratedRegex(@"(?<![\w.])M(\d+(?:\.\d+)?)(?![\w.])", RegexOptions.CultureInvariant)]
    private static partial Regex Metric();

    [GeneratedRegex(@"(?<![\w./])(\d+)/(\d+)-(\d+)(?!\w)", RegexOptions.CultureInvariant)]
    private static partial Regex Unified();

    [GeneratedRegex(
        @"(\d+(?:\.\d+)?)\s*(NM|N\.M|N\s+M|LBF?[.\s-]?IN|IN[.\s-]?LBF?|LBF?[.\s-]?FT|FT[.\s-]?LBF?)\b",
        RegexOptions.CultureInvariant
    )]
    private static partial Regex Torques();

    [GeneratedRegex(@"\bKEY\s+(\d+(?:\.\d+)?)\s+MM\s+INTO", RegexOptions.CultureInvariant)]
    private static partial Regex Keys();

    [GeneratedRegex(@"(\d+)\s+FULL\s+TURNS", RegexOptions.CultureInvariant)]
    private static partial Regex Turns();
}

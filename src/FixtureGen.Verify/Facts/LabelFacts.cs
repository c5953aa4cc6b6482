using FixtureGen.Model;

namespace FixtureGen.Verify.Facts;

/// <summary>
/// What is engraved, and what the trim program says first, against the job: title, fixture, revision, program number, number of magnets
/// and pole. The strokes are taken for the letters that they stand for: their depth is judged, and that each is there.
/// </summary>
internal static class LabelFacts
{
    public static void Check(FactRun facts)
    {
        (Job job, FixtureDesign design) = (facts.Job, facts.Design);
        int magnets = design.Magnets.Length;
        string wanted = Bare(
            FormattableString.Invariant(
                $"{(job.Title.Length > 0 ? job.Title : job.Name)} {job.FixtureId} REV {job.Revision} {Number(job)} MAGNETS {magnets} {(magnets > 0 ? "N UP" : "")}"
            )
        );
        if (Bare(design.Label) != wanted)
        {
            FactFindings.Label(facts, $"the label is '{design.Label}', job and design ask for {wanted}");
        }
        Engraved(facts, FeatureKind.Label, "the label", true, design.Label);
        Engraved(facts, FeatureKind.Mark, "the pole's mark", magnets > 0, "");
    }

    private static void Engraved(FactRun facts, FeatureKind kind, string what, bool wanted, string text)
    {
        EngravingFeature[] there = [.. facts.Design.Features.OfType<EngravingFeature>().Where(f => f.Kind == kind)];
        if (there.Length != (wanted ? 1 : 0))
        {
            FactFindings.Label(facts, FormattableString.Invariant($"{what} is engraved {there.Length} times"));
        }
        foreach (EngravingFeature engraving in there)
        {
            if (text.Length > 0 && Bare(engraving.Text) != Bare(text))
            {
                FactFindings.Label(facts, $"'{engraving.Text}' is engraved, the label is '{text}'");
            }
            double off = engraving.Depth - facts.Job.Rules.EngraveDepth;
            if (Math.Abs(off) > Fits.SetFloor || Math.Abs(engraving.TopZ - facts.Face) > Fits.SetFloor)
            {
                FactFindings.Label(facts, FormattableString.Invariant($"{what} is {off:+0.###;-0.###} mm too deep"));
            }
        }
    }

    private static string Number(Job job)
    {
        string word = job.Control.ProgramNumberWord.Length > 0 ? job.Control.ProgramNumberWord : "P";
        int number = job.ProgramNumber ?? job.Control.ProgramNumberMin;
        string digits = FormattableString.Invariant($"{number}");
        return word + new string('0', Math.Max(0, job.Control.ProgramNumberDigits - digits.Length)) + digits;
    }

    /// <summary>Capital letters and digits only, as the operator compares them.</summary>
    private static string Bare(string text) => string.Concat(text.ToUpperInvariant().Where(char.IsLetterOrDigit));
}

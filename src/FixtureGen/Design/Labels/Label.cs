using System.Collections.Immutable;
using System.Globalization;
using FixtureGen.Design.Block;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Labels;

/// <summary>
/// The block's name plate, engraved beside the part: part, fixture and revision, program number, number of magnets and
/// which pole is up. The operator compares it with the first comment of the trim program, which is the same text.
/// </summary>
internal static class Label
{
    /// <summary>House rule: every pocket's magnet shows its north pole to the shell.</summary>
    private const string Pole = "N UP";

    /// <summary>ISO 3098-1 nominal sizes, mm, largest first; smaller than 2.5 is not readable on a block.</summary>
    private static readonly ImmutableArray<double> Sizes = [20, 14, 10, 7, 5, 3.5, 2.5];

    /// <summary>What is engraved and what the trim program says first, in letters that both have; what has none stays and is refused.</summary>
    public static string Text(Job job, int magnets)
    {
        string text = string.Join(' ', Parts(job, magnets).Where(p => p.Length > 0));
        (string plain, bool lost) = PlainText.Spell(text);
        return (lost ? text : plain).ToUpperInvariant();
    }

    private static IEnumerable<string> Parts(Job job, int magnets)
    {
        yield return job.Title.Length > 0 ? job.Title : job.Name;
        yield return job.FixtureId;
        yield return "REV " + job.Revision.ToString(CultureInfo.InvariantCulture);
        yield return ProgramName(job.Control, job.ProgramNumber ?? job.Control.ProgramNumberMin);
        yield return "MAGNETS " + magnets.ToString(CultureInfo.InvariantCulture);
        yield return magnets > 0 ? Pole : "";
    }

    private static string ProgramName(Control control, int number)
    {
        string word = control.ProgramNumberWord.Length > 0 ? control.ProgramNumberWord : "P";
        return word + number.ToString(CultureInfo.InvariantCulture).PadLeft(control.ProgramNumberDigits, '0');
    }

    /// <summary>The engraving on free face, and the mark that says that the pole points up; both in one frame.</summary>
    public static Stage<ImmutableArray<Feature>> Engrave(
        string text,
        bool hasMagnets,
        FreeFace face,
        Levels levels,
        Job job,
        Kernel kernel
    )
    {
        if (Engraver(job) is not { } tool)
        {
            return Stage.Failed<ImmutableArray<Feature>>(LabelFindings.NoEngraver());
        }
        List<Finding> findings = [];
        ImmutableArray<char> unknown = Lettering.Strokes(text, job.Rules.LetterHeight).Unknown;
        if (unknown.Length > 0)
        {
            findings.Add(LabelFindings.NoLetterFor(text, unknown));
        }
        double[] heights = [job.Rules.LetterHeight, .. Sizes.Where(s => s < job.Rules.LetterHeight)];
        foreach (double height in heights)
        {
            if (LabelLayout.Find(text, hasMagnets, height, face) is not { } layout)
            {
                continue;
            }
            if (height < job.Rules.LetterHeight)
            {
                findings.Add(LabelFindings.LabelSmaller(height, job.Rules.LetterHeight));
            }
            List<Feature> features =
            [
                Engraving("label", FeatureKind.Label, text, layout.Letters, tool, levels, job, kernel),
            ];
            if (layout.Arrow.Length > 0)
            {
                features.Add(Engraving("pole mark", FeatureKind.Mark, Pole, layout.Arrow, tool, levels, job, kernel));
            }
            return Stage.Answer(features.ToImmutableArray(), findings);
        }
        findings.Add(LabelFindings.NoRoomForLabel(text, heights[^1], Lettering.Width(text, heights[^1])));
        return Stage.Failed<ImmutableArray<Feature>>(findings);
    }

    private static Tool? Engraver(Job job) =>
        job
            .Tools.Where(t => t.Kind == ToolKind.Engraver)
            .OrderBy(t => t.TipDiameter)
            .ThenBy(t => t.Number)
            .FirstOrDefault();

    /// <summary>A conical cutter's groove is as wide at the face as its cone at that depth.</summary>
    private static EngravingFeature Engraving(
        string name,
        FeatureKind kind,
        string text,
        ImmutableArray<OpenPath> strokes,
        Tool tool,
        Levels levels,
        Job job,
        Kernel kernel
    )
    {
        double depth = job.Rules.EngraveDepth;
        double width = tool.TipDiameter + (2 * depth * Math.Tan(tool.TipAngleDeg * Math.PI / 360));
        ImmutableArray<Region> area = kernel.UnionAll([.. strokes.SelectMany(s => Swept(s, width, kernel))]);
        return new()
        {
            Name = name,
            Kind = kind,
            Setup = Setup.Top,
            Text = text,
            Strokes = strokes,
            Width = width,
            TopZ = levels.Face,
            Depth = depth,
            Removals = [new(Setup.Top, kind, name, area, levels.Face, levels.Face - depth)],
        };
    }

    /// <summary>A stroke that ends where it starts (a D, a zero) is a loop.</summary>
    private static ImmutableArray<Region> Swept(OpenPath stroke, double width, Kernel kernel) =>
        stroke.Start == stroke.End ? kernel.Stroke(new Contour(stroke.Segments), width) : kernel.Stroke(stroke, width);
}

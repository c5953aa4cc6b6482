using FixtureGen.Cutting;
using FixtureGen.Design.Forms;
using FixtureGen.Model;
using FixtureGen.Toolpaths.Moves;

namespace FixtureGen.Toolpaths.Methods;

/// <summary>Marks engraved on the shell's upper face.</summary>
internal static class TrimMarks
{
    public static IEnumerable<Piece> Pieces(FixtureDesign design, Job job, Heights heights)
    {
        CutData data = Cutting(job).Data;
        return design.Part.Engravings.SelectMany(
            (m, i) =>
            {
                double top = FormTops.Face(design, m, job);
                double thicker = job.Shell.ThicknessMax - job.Shell.Thickness;
                return Engraving.Strokes(
                    FormattableString.Invariant($"mark {i + 1}"),
                    m.Strokes,
                    data,
                    heights with
                    {
                        Face = Math.Max(heights.Face, top + thicker),
                    },
                    top,
                    job.Rules.EngraveDepth
                );
            }
        );
    }

    public static ToolCut Cutting(Job job)
    {
        Tool tool = job.Tools.First(t => t.Kind == ToolKind.Engraver);
        double width = EngraverFeeds.WidthAt(tool, job.Rules.EngraveDepth);
        CutData data = EngraverFeeds.For(tool, width, job.ShellMaterial, job.Plate.Machine);
        return new ToolCut(tool, OperationKind.TrimEngrave, data, 0, () => []);
    }
}

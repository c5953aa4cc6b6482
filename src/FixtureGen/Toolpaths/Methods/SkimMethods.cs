using FixtureGen.Cutting;
using FixtureGen.Model;
using FixtureGen.Toolpaths.Moves;

namespace FixtureGen.Toolpaths.Methods;

/// <summary>
/// The face is skimmed by a face mill or any end mill; the tool set decides which is quickest. Heights and passes are for the thickest blank
/// that may lie there, not for the nominal one: the first pass is no deeper in it than any other.
/// </summary>
internal static class SkimMethods
{
    public static IEnumerable<Method> For(PocketFeature skim, Frame frame)
    {
        double raw = Math.Max(skim.TopZ, frame.Job.BlankThickest);
        Heights heights = frame.Heights with { Face = raw, Hop = raw + Heights.HopGap };
        foreach (Tool tool in FaceMills(frame.Job, frame.Block).Concat(frame.EndMills))
        {
            double ae = Skimming.Width * tool.Diameter;
            CutData data = Feeds.For(tool, frame.Job.BlockMaterial, frame.Job.Plate.Machine, ae, raw - skim.FloorZ) with
            {
                StepOver = ae,
            };
            data = frame.Eased(data, tool);
            data = Passes.Count(raw - skim.FloorZ, data.StepDown) == 1 ? data.Over(raw - skim.FloorZ) : data;
            double area = frame.Block.Width * frame.Block.Height;
            yield return Method.Cut(
                skim,
                new ToolCut(
                    tool,
                    OperationKind.Skim,
                    data,
                    Passes.Count(raw - skim.FloorZ, data.StepDown) * area / ae / data.Feed,
                    () =>
                        [
                            Skimming.Face(
                                skim.Name,
                                frame.Block,
                                frame.Job.Plate.PlacingTolerance,
                                tool,
                                data,
                                heights,
                                raw,
                                skim.FloorZ
                            ),
                        ]
                )
            );
        }
    }

    /// <summary>
    /// The face mills that can run here: the material has a facing chart, the spindle turns slowly enough for it, and the machine's travel
    /// lets them come down beside the block.
    /// </summary>
    public static IEnumerable<Tool> FaceMills(Job job, Box2 block)
    {
        Machine machine = job.Plate.Machine;
        return job.BlockMaterial.Facing is { } chart
            ? job.Tools.Where(t =>
                t.Kind == ToolKind.FaceMill
                && Math.PI * t.Diameter * machine.MinSpindleRpm / 1000 <= chart.MaxSpeedMPerMin
                && Skimming.BesideY(block, job.Plate.PlacingTolerance, t) >= machine.Travel.MinY
            )
            : [];
    }
}

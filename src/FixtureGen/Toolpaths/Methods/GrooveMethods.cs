using System.Collections.Immutable;
using FixtureGen.Cutting;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Toolpaths.Moves;

namespace FixtureGen.Toolpaths.Methods;

/// <summary>The ways to cut a groove: one pass of a cutter of its width where there is one, else rings of a narrower one.</summary>
internal static class GrooveMethods
{
    /// <summary>A cutter is of the groove's width within this, mm: each wall is off by at most half of it.</summary>
    private const double SameWidth = 0.02;

    /// <summary>What stays between the tool and a pocket's wall where it goes down, mm (common practice, no source).</summary>
    private const double Clearance = 0.2;

    public static IEnumerable<Method> For(GrooveFeature groove, Frame frame)
    {
        bool any = false;
        foreach (Tool tool in frame.Reaching(groove.FloorZ, t => Math.Abs(t.Diameter - groove.Width) <= SameWidth))
        {
            any = true;
            yield return Method.Cut(groove, AtFullWidth(groove, tool, frame));
        }
        if (any)
        {
            yield break;
        }
        foreach (Method m in PocketMethods.For(groove, Fit.RemovalsIn(groove, frame.Setup), frame))
        {
            yield return m;
        }
    }

    private static ToolCut AtFullWidth(GrooveFeature groove, Tool tool, Frame frame)
    {
        CutData data = frame.Data(tool, tool.Diameter).Over(groove.TopZ - groove.FloorZ);
        double length = groove.Loops.Sum(Measure.Length) + groove.Runs.Sum(Measure.Length);
        int passes = Passes.Down(groove.TopZ, groove.FloorZ, data.StepDown).Count();
        return new ToolCut(
            tool,
            OperationKind.Groove,
            data,
            length * passes / data.Feed,
            () => [.. Pieces(groove, tool, data, frame)]
        );
    }

    /// <summary>Notches begin in their own pockets, one by one; a net is cut branch by branch without a lift.</summary>
    private static IEnumerable<Piece> Pieces(GrooveFeature groove, Tool tool, CutData data, Frame frame)
    {
        (string name, double top, double floor, Heights heights) = (
            groove.Name,
            groove.TopZ,
            groove.FloorZ,
            frame.Heights
        );
        bool notches = groove.Kind == FeatureKind.MagnetNotch;
        List<OpenPath> left = [.. groove.Runs];
        foreach (Contour loop in groove.Loops)
        {
            ImmutableArray<Branch> branches = Branch.On(loop.Segments, left);
            yield return Groove.Closed(name, loop, branches, tool, data, heights, top, floor);
        }
        foreach (Branch tree in notches ? left.Select(r => new Branch(0, r, [])) : Branch.Trees(left))
        {
            yield return FromPocket(tree.Run, groove, tool, frame) is { } cleared
                ? Groove.FromCleared(name, cleared, data, heights, top, floor)
                : Groove.Open(name, tree, data, heights, top, floor);
        }
    }

    /// <summary>The part of a run that is cut, where the tool can go down in the open at its start; null where it cannot.</summary>
    private static OpenPath? FromPocket(OpenPath run, GrooveFeature groove, Tool tool, Frame frame) =>
        NotchStart.InTheOpen(run, groove, tool, frame, Clearance) is { } open
            ? new OpenPath([.. Along.Open(run.Segments, open, Measure.Length(run))])
            : null;
}

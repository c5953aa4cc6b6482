using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Toolpaths.Moves;

/// <summary>
/// A run that begins on another one, at an arc length of that one, mm, with what begins on it in turn. A net is cut as such a tree: out
/// along every branch and back over what was just cut, without a lift and without a ramp of its own.
/// </summary>
internal sealed record Branch(double At, OpenPath Run, ImmutableArray<Branch> Branches)
{
    /// <summary>An end within this of a run lies on it, mm.</summary>
    private const double Touch = 1e-3;

    /// <summary>Runs sorted into trees, the longest first; a run that meets no other is a tree of its own.</summary>
    public static ImmutableArray<Branch> Trees(IEnumerable<OpenPath> runs)
    {
        List<OpenPath> left = [.. runs.OrderByDescending(Measure.Length)];
        var trees = ImmutableArray.CreateBuilder<Branch>();
        while (left.Count > 0)
        {
            OpenPath root = left[0];
            left.RemoveAt(0);
            trees.Add(new Branch(0, root, On(root.Segments, left)));
        }
        return trees.ToImmutable();
    }

    /// <summary>What begins on a run or loop, in its order; taken out of <paramref name="left"/>.</summary>
    public static ImmutableArray<Branch> On(ImmutableArray<Segment> run, List<OpenPath> left)
    {
        List<(double At, OpenPath Run)> here = [];
        foreach (OpenPath other in left.ToArray())
        {
            (double atStart, _, double fromStart) = Along.Nearest(run, other.Start);
            (double atEnd, _, double fromEnd) = Along.Nearest(run, other.End);
            if (Math.Min(fromStart, fromEnd) > Touch)
            {
                continue;
            }
            left.Remove(other);
            here.Add(
                fromStart <= fromEnd ? (atStart, other) : (atEnd, new OpenPath([.. Along.Reversed(other.Segments)]))
            );
        }
        return [.. here.OrderBy(h => h.At).Select(h => new Branch(h.At, h.Run, On(h.Run.Segments, left)))];
    }

    /// <summary>The same run from its other end.</summary>
    public Branch Turned()
    {
        double length = Measure.Length(Run);
        return this with
        {
            Run = new OpenPath([.. Along.Reversed(Run.Segments)]),
            Branches = [.. Branches.Select(b => b with { At = length - b.At }).Reverse()],
        };
    }

    /// <summary>Along the run at a height, every branch out and back where it begins.</summary>
    public void Follow(Pen pen, double z, double feed)
    {
        double done = 0;
        foreach (Branch branch in Branches)
        {
            pen.Follow(Along.Open(Run.Segments, done, branch.At), z, feed);
            branch.OutAndBack(pen, z, feed);
            done = branch.At;
        }
        pen.Follow(Along.Open(Run.Segments, done, Measure.Length(Run)), z, feed);
    }

    /// <summary>Once round a loop from an arc length of it, mm, every branch out and back where it begins.</summary>
    public static void Round(
        Pen pen,
        ImmutableArray<Segment> loop,
        double from,
        ImmutableArray<Branch> branches,
        double z,
        double feed
    )
    {
        double length = loop.Sum(s => s.Length);
        double done = 0;
        foreach (
            (double at, Branch branch) in branches
                .Select(b => ((b.At - from + length) % length, b))
                .OrderBy(b => b.Item1)
        )
        {
            pen.Follow(Along.Loop(loop, from + done, at - done), z, feed);
            branch.OutAndBack(pen, z, feed);
            done = at;
        }
        pen.Follow(Along.Loop(loop, from + done, length - done), z, feed);
    }

    private void OutAndBack(Pen pen, double z, double feed)
    {
        Follow(pen, z, feed);
        pen.Follow(Along.Reversed(Run.Segments), z, feed);
    }
}

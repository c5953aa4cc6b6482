using System.Collections.Immutable;

namespace FixtureGen.Toolpaths.Routes;

/// <summary>
/// The order of the work: what must wait waits, what breaks the plate's seal comes last, and between those the tool that is in the
/// spindle goes on while it has work, so that no tool is fetched twice without need; else the earliest stage is next.
/// </summary>
internal static class Sequence
{
    public static ImmutableArray<Work> Order(IReadOnlyList<Work> all)
    {
        List<Work> left = [.. all];
        var order = ImmutableArray.CreateBuilder<Work>(left.Count);
        while (left.Count > 0)
        {
            List<Work> free = [.. left.Where(w => !left.Any(o => o != w && w.Follows(o)))];
            if (free.Count == 0)
            {
                free = left;
            }
            Work next =
                free.Where(w => order.Count > 0 && w.Cutting.Tool == order[^1].Cutting.Tool).MinBy(w => w.Stage)
                ?? free.MinBy(w => (Waiting(w, left), w.Stage))!;
            order.Add(next);
            left.Remove(next);
        }
        return order.ToImmutable();
    }

    /// <summary>1 for a tool of which some work still has to wait: fetched now it would be fetched again.</summary>
    private static int Waiting(Work work, List<Work> left) =>
        left.Any(w =>
            w.Cutting.Tool == work.Cutting.Tool
            && left.Any(o => o != w && o.Cutting.Tool != w.Cutting.Tool && w.Follows(o))
        )
            ? 1
            : 0;
}

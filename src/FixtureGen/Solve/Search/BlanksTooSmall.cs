using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Solve.Search;

/// <summary>
/// Which sizes of blank a part was seen not to fit with a cutter: a thicker one asks for a wider relief, so it does not fit
/// either. What else refuses a choice is asked of each.
/// </summary>
internal sealed class BlanksTooSmall
{
    private readonly Dictionary<
        (double Width, double Height, string Cord),
        (double Diameter, ImmutableArray<Finding> Why)
    > _refused = [];

    /// <summary>Why the job's part does not fit its blank, as said of another choice; empty where that is not known.</summary>
    public ImmutableArray<Finding> Refusal(Job job) =>
        _refused.TryGetValue(Key(job), out var known) && job.TrimTool.Diameter >= known.Diameter ? known.Why : [];

    /// <summary>Takes note of what a choice was refused for.</summary>
    public void Learn(Job job, ImmutableArray<Finding> refused)
    {
        if (
            refused.Any(f => f.Code == "part-does-not-fit")
            && (!_refused.TryGetValue(Key(job), out var known) || job.TrimTool.Diameter < known.Diameter)
        )
        {
            _refused[Key(job)] = (job.TrimTool.Diameter, refused);
        }
    }

    private static (double, double, string) Key(Job job) => (job.Blank.Width, job.Blank.Height, job.Gasket.Name);
}

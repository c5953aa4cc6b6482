using System.Collections.Immutable;
using FixtureGen.Verify.Reading;
using FixtureGen.Verify.Runs;

namespace FixtureGen.Verify.Sequence;

/// <summary>
/// G18 and G19 choose the plane of arcs to come. One that no arc follows does nothing where it stands, and what comes after a stop or a
/// tool change then begins in another plane than the control's safe start says.
/// </summary>
internal static class PlaneCheck
{
    private const int Xy = 170;

    public static void Check(Run run)
    {
        Block? open = null;
        foreach (Block block in run.Trace.Blocks)
        {
            ImmutableArray<Word> words = block.Words;
            bool arc =
                words.Any(w => w.Letter is 'I' or 'J' or 'K')
                || words.Any(w => w.Letter == 'G' && w.Tenths is 20 or 30);
            int plane = words.Where(w => w.Letter == 'G' && w.Tenths is Xy or 180 or 190).Sum(w => w.Tenths);
            if (open is not null && plane != 0)
            {
                Say(run, open);
            }
            open =
                arc ? null
                : plane is not 0 and not Xy ? block
                : plane == Xy ? null
                : open;
        }
        if (open is not null)
        {
            Say(run, open);
        }
    }

    private static void Say(Run run, Block block) =>
        run.Log.Error(
            "orphan-word",
            block.Line,
            "another plane than X and Y is chosen and no arc follows in it",
            "Write G17: everything here is cut in X and Y"
        );
}

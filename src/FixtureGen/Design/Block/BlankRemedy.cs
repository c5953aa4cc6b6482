using FixtureGen.Model;

namespace FixtureGen.Design.Block;

/// <summary>Which other blank of the shop would do, each tried on the plate.</summary>
internal static class BlankRemedy
{
    /// <param name="fits">Whether a blank that lies so on the plate would do.</param>
    public static string Find(Job job, Func<Box2, bool> fits)
    {
        string[] others =
        [
            .. job
                .OtherBlanks.Where(b => BlankSeat.Seat(job.Plate, b) is { Ok: true } seat && fits(seat.Value))
                .Select(b => b.Name),
        ];
        return others.Length > 0
            ? $"take the blank {string.Join(" or ", others)}"
            : "no blank of the shop would do: add a larger one, or another plate";
    }
}
